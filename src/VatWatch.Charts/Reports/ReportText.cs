namespace VatWatch.Charts.Reports;

/// <summary>Sentences that every form of report shares.</summary>
internal static class ReportText
{
    /// <summary>The standing caution (safety facts, 0): a record must not be taken for protection.</summary>
    public const string Caution = "VatWatch keeps a record and gives warnings; it is not a safety device.";

    /// <summary>What was too short for the table of gaps.</summary>
    public static string ShortGaps(int readings) =>
        readings == 1 ? "1 single reading gave no value besides." : $"{readings} single readings gave no value besides.";
}
