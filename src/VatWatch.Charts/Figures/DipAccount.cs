using VatWatch.Conditions;
using VatWatch.Conditions.Reduction;
using VatWatch.Sessions;

namespace VatWatch.Charts.Figures;

internal sealed record DipAccount
{
    /// <summary>Counted from 1.</summary>
    public required int Number { get; init; }

    public required Dip Dip { get; init; }

    /// <summary>The condition when the yarn went in: the last look before; null when there was none in the ten minutes before.</summary>
    public VatCondition? AtIn { get; init; }

    /// <summary>Median of ORP over the ten minutes before the yarn went in, mV.</summary>
    public double? OrpBefore { get; init; }

    /// <summary>Highest ORP from in until half an hour after out, or until the next dip, mV.</summary>
    public double? OrpHighest { get; init; }

    /// <summary>Median of ORP over the last ten minutes of that time, mV; null when there were none after the dip.</summary>
    public double? OrpAfter { get; init; }

    /// <summary>How the vat came back; null when it hardly answered, or was still away when the next dip came.</summary>
    public Recovery? Recovery { get; init; }
}
