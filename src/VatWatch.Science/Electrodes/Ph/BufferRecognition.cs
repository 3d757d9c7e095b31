using System.Diagnostics.CodeAnalysis;

namespace VatWatch.Science.Electrodes.Ph;

/// <summary>Tells which of a set of buffers an electrode stands in, from its voltage and temperature.</summary>
public static class BufferRecognition
{
    /// <summary>A reading farther than this from every buffer is none of them: ±1 pH is about ±60 mV, the offset of an unfit electrode. Our choice.</summary>
    public const double FarthestPh = 1.0;

    /// <summary>The second-nearest buffer must be farther than the nearest by this much, in pH, or the answer is doubtful. Our choice.</summary>
    public const double ClearLeadPh = 0.5;

    /// <summary>Finds the buffer; answers only when one is near and no other is nearly as near.</summary>
    /// <param name="electrodeMillivolts">Settled electrode voltage, mV.</param>
    /// <param name="temperatureC">Temperature of the buffer, °C.</param>
    /// <param name="candidates">The buffers on the bench, such as <see cref="PhBuffers.TechnicalSet"/>.</param>
    /// <param name="electrode">The electrode's last calibration, or <see cref="PhLine.Ideal"/> for a new one.</param>
    /// <param name="buffer">The buffer recognised.</param>
    /// <returns>False when none is near enough or two are alike.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number, or the temperature does not exist.</exception>
    public static bool TryRecognise(
        double electrodeMillivolts,
        double temperatureC,
        IReadOnlyList<PhBuffer> candidates,
        PhLine electrode,
        [NotNullWhen(true)] out PhBuffer? buffer)
    {
        var ph = electrode.PhAt(electrodeMillivolts, temperatureC);
        var nearest = candidates
            .Select(candidate => (Buffer: candidate, DistancePh: Math.Abs(candidate.PhAt(temperatureC).Value - ph)))
            .OrderBy(match => match.DistancePh)
            .Take(2)
            .ToArray();

        var clear = nearest.Length > 0
            && nearest[0].DistancePh <= FarthestPh
            && (nearest.Length == 1 || nearest[1].DistancePh - nearest[0].DistancePh >= ClearLeadPh);
        buffer = clear ? nearest[0].Buffer : null;
        return clear;
    }
}
