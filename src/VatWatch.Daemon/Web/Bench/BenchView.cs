using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Daemon.Web.Bench;

/// <summary>A guided calibration as its page shows it.</summary>
public sealed record BenchView
{
    private static readonly double[] Temperatures = [10, 15, 20, 25, 30, 35, 40, 45, 50];

    public required VatDefinition Vat { get; init; }

    /// <summary>The electrode.</summary>
    public required ProbeDefinition Probe { get; init; }

    /// <summary>Word of the set of buffers that is offered.</summary>
    public required string Set { get; init; }

    /// <summary>Buffers of the set; empty for bottles.</summary>
    public required IReadOnlyList<PhBuffer> Buffers { get; init; }

    /// <summary>The solution it stands in, in words; null between solutions.</summary>
    public required string? Standing { get; init; }

    /// <summary>Temperature of the last solution, °C; null before the first.</summary>
    public required double? LastTemperatureC { get; init; }

    /// <summary>Points taken, in words.</summary>
    public required IReadOnlyList<string> Taken { get; init; }

    /// <summary>Whether another solution may be taken.</summary>
    public required bool HasRoom { get; init; }

    /// <summary>Live value.</summary>
    public required ElectrodeSnapshot Look { get; init; }

    /// <summary>What was found so far, in words.</summary>
    public required string? Found { get; init; }

    /// <summary>How that is judged.</summary>
    public required CalibrationHealth? Health { get; init; }

    /// <summary>Why the points make no calibration.</summary>
    public required string? Contradiction { get; init; }

    public bool IsOrp => Probe.Quantity == Quantity.Orp;

    /// <summary>Address of the page.</summary>
    public string Href => ElectrodeView.AddressOf(Probe);

    public IEnumerable<(double TemperatureC, IReadOnlyList<string> Values)> BufferTable => Temperatures.Select(celsius =>
        (celsius, (IReadOnlyList<string>)[.. Buffers.Select(buffer => buffer.PhAt(celsius) is { } value ? value.Value.ToString("0.00") + (value.Extrapolated ? "?" : "") : "")]));

    internal static BenchView Of(
        VatDefinition vat, ProbeDefinition probe, BenchWork work, BufferChoice set, ElectrodeSnapshot look, CalibrationCache calibrations, CalibrationLimits limits, DisplayUnits units)
    {
        var before = calibrations.InUse(probe.Id)?.Calibration;
        var found = work.Found(before as PhCalibration, out var contradiction);
        return new()
        {
            Vat = vat,
            Probe = probe,
            Set = set.Word,
            Buffers = set.Buffers,
            Standing = work.Solution is { } solution ? solution.Check?.Name ?? solution.Buffer?.Name ?? "a buffer that is recognised by its voltage" : null,
            LastTemperatureC = work.Solution?.TemperatureC ?? (work.Points is [.., var last] ? last.Point.TemperatureC : null),
            Taken = [.. work.Points.Select(Words).Concat(work.Orp is { } orp ? [Words(orp)] : Array.Empty<string>()).Select(units.Words)],
            HasRoom = work.HasRoom(probe),
            Look = look,
            Found = found is null ? null : ElectrodeView.Words(found),
            Health = found is null ? null : CalibrationHealth.Of(found, before, limits),
            Contradiction = contradiction,
        };
    }

    private static string Words(PhCalibrationPoint point) => $"{point.Buffer}: pH {point.Point.BufferPh:0.00} at {point.Point.TemperatureC:0.#} °C, {point.Point.ElectrodeMillivolts:0.0;−0.0} mV{Settled(point.Settling)}";

    private static string Words(OrpCalibration orp) => $"{orp.Solution}: expected {orp.ExpectedMillivolts:0.0;−0.0} mV at {orp.SolutionC:0.#} °C, shown {orp.MeasuredMillivolts:0.0;−0.0} mV{Settled(orp.Settled)}";

    private static string Settled(TimeSpan? settling) => settling is { } time ? $", at rest after {DisplayUnits.Duration(time)}" : "";
}
