using VatWatch.Conditions;
using VatWatch.Conditions.Heating;

namespace VatWatch.Daemon.Web.Api;

/// <summary>What a dip will do to a vat.</summary>
/// <param name="YarnGrams">Dry weight of the yarn that was asked for.</param>
/// <param name="DropK">How much the liquor cools.</param>
/// <param name="AfterC">Where it then stands.</param>
/// <param name="Recovery">Until the heater has brought it back; null when it does not.</param>
/// <param name="FewestDips">Dips before the vat should rest, at least.</param>
/// <param name="MostDips">At most.</param>
/// <param name="OrpBackMinutes">Middle time that ORP took to come back after the dips so far.</param>
/// <param name="OrpDips">How many dips that rests on.</param>
/// <param name="Assumptions">What it rests on, in the dyer's units.</param>
internal sealed record DipOutlookReply(
    double YarnGrams, ValueRange DropK, ValueRange AfterC, ForecastDocument? Recovery, int FewestDips, int MostDips, double? OrpBackMinutes, int OrpDips,
    IReadOnlyList<string> Assumptions)
{
    internal static DipOutlookReply Of(double yarnGrams, DipOutlook outlook) => new(
        yarnGrams,
        Tidy(outlook.Drop),
        Tidy(outlook.After),
        ForecastDocument.Of(outlook.Recovery),
        outlook.FewestDips,
        outlook.MostDips,
        outlook.OrpBack is { } back ? Math.Round(back.TotalMinutes, 1) : null,
        outlook.OrpDips,
        outlook.Assumptions);

    private static ValueRange Tidy(ValueRange range) => new(Math.Round(range.Low, 2), Math.Round(range.High, 2));
}
