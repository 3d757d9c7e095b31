using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Daemon.Web.Bench;

/// <summary>The solution an electrode stands in.</summary>
/// <param name="Buffer">The buffer; null when it is to be recognised by its voltage, and for ORP.</param>
/// <param name="Check">The check solution of an ORP probe.</param>
/// <param name="TemperatureC">Its temperature, °C.</param>
internal sealed record BenchSolution(PhBuffer? Buffer, CheckSolution? Check, double TemperatureC);

/// <summary>A calibration that is being made at the bench. Immutable.</summary>
/// <param name="Solution">Where the electrode stands; null between solutions.</param>
/// <param name="Points">Buffers taken.</param>
/// <param name="Orp">The check solution taken.</param>
internal sealed record BenchWork(BufferChoice Choice, BenchSolution? Solution, IReadOnlyList<PhCalibrationPoint> Points, OrpCalibration? Orp)
{
    /// <summary>Nothing done yet.</summary>
    public static BenchWork Fresh { get; } = new(BufferChoice.All[0], null, [], null);

    /// <summary>Whether another solution may be taken.</summary>
    public bool HasRoom(ProbeDefinition probe) => probe.Quantity == Quantity.Orp ? Orp is null : Points.Count < PhCalibration.MostPoints;

    /// <summary>The point of the solution it stands in; null with the reason as a sentence.</summary>
    public BenchWork? Take(ElectrodeSnapshot look, ReferenceElectrode? reference, PhCalibration? before, out string whyNot)
    {
        whyNot = "The electrode is in no solution; say first which one it is in.";
        if (Solution is not { } solution)
        {
            return null;
        }

        if (look.Rest is not { } rest)
        {
            whyNot = $"The electrode has not been at rest for {DisplayUnits.Duration(look.Window)} yet; wait until the bar is full.";
            return null;
        }

        if (solution.Check is { } check)
        {
            whyNot = "The vat names no reference electrode that is known here; set orp.reference in the configuration.";
            return reference is null
                ? null
                : this with { Solution = null, Orp = OrpCalibration.In(check, reference, rest.Millivolts, solution.TemperatureC, rest.Settling) };
        }

        if ((solution.Buffer ?? Choice.Recognised(rest.Millivolts, solution.TemperatureC, before?.Line ?? PhLine.Ideal(solution.TemperatureC))) is not { } buffer)
        {
            whyNot = $"No buffer of the {Choice.Word} set ({Choice.Values}) is clearly the one with {rest.Millivolts:0.0;−0.0} mV; say which one it is.";
            return null;
        }

        return this with { Solution = null, Points = [.. Points, PhCalibrationPoint.In(buffer, rest.Millivolts, solution.TemperatureC, rest.Settling)] };
    }

    /// <summary>What was found so far; null with the reason, or before the first point.</summary>
    public ElectrodeCalibration? Found(PhCalibration? before, out string? whyNot)
    {
        whyNot = null;
        if (Orp is not null || Points.Count == 0)
        {
            return Orp;
        }

        try
        {
            return PhCalibration.Through(Points, PhFitKind.Line, before);
        }
        catch (ArgumentOutOfRangeException refusal)
        {
            whyNot = $"These buffers make no calibration: {BufferFault.Sentence(refusal)}";
            return null;
        }
    }
}
