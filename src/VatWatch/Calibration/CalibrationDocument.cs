using System.Diagnostics.CodeAnalysis;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Calibration;

/// <summary>Writes and reads the JSON in which a calibration is kept; see FORMAT.md.</summary>
public static class CalibrationDocument
{
    /// <summary>Number of the newest form.</summary>
    public const int Version = 1;

    private const string Ph = "ph";
    private const string Orp = "orp";

    /// <summary>The JSON reader takes a number of four hundred digits for infinity.</summary>
    private const string Endless = "one of its numbers is larger than any measurement";

    /// <summary>The JSON of a calibration, one line.</summary>
    public static string Write(ElectrodeCalibration calibration) => JsonSerializer.Serialize(
        calibration switch
        {
            PhCalibration ph => Document(ph),
            OrpCalibration orp => Document(orp),
            _ => throw new ArgumentException($"{calibration.GetType().Name} is no calibration that can be kept", nameof(calibration)),
        },
        CalibrationJson.Compact.StoredDocument);

    /// <summary>Reads a kept calibration; never throws on text.</summary>
    /// <returns>False, with the reason as a clause, when it is not one that this version understands.</returns>
    public static bool TryRead(string json, [NotNullWhen(true)] out ElectrodeCalibration? calibration, [NotNullWhen(false)] out string? whyNot)
    {
        calibration = null;
        try
        {
            var document = JsonSerializer.Deserialize(json, CalibrationJson.Compact.StoredDocument);
            whyNot = document switch
            {
                null => "it is empty",
                { Version: not Version } => $"its form is version {document.Version}; wanted {Version}",
                { Kind: Ph } => ReadPh(document, out calibration),
                { Kind: Orp } => ReadOrp(document, out calibration),
                _ => $"its kind is '{document.Kind}'; wanted '{Ph}' or '{Orp}'",
            };
            return calibration is not null;
        }
        catch (Exception caught) when (caught is JsonException or ArgumentException or OverflowException)
        {
            whyNot = caught is JsonException ? "it is not the JSON of a calibration" : caught.Message;
            return false;
        }
    }

    private static StoredDocument Document(PhCalibration ph) => new()
    {
        Version = Version,
        Kind = Ph,
        Fit = ph.Fit == PhFitKind.Pieces ? "pieces" : "line",
        SlopeMillivoltsPerPh = ph.Line.SlopeMillivoltsPerPh,
        OffsetMillivolts = ph.Line.OffsetMillivolts,
        TemperatureC = ph.Line.TemperatureC,
        Points =
        [
            .. ph.Points.Select(one => new StoredPoint(
                one.Buffer, one.Point.BufferPh, one.Point.ElectrodeMillivolts, one.Point.TemperatureC, one.Settling?.TotalSeconds, one.Extrapolated)),
        ],
    };

    private static StoredDocument Document(OrpCalibration orp) => new()
    {
        Version = Version,
        Kind = Orp,
        Solution = orp.Solution,
        Reference = orp.Reference,
        MeasuredMillivolts = orp.MeasuredMillivolts,
        OffsetMillivolts = orp.Offset.Millivolts,
        TemperatureC = orp.SolutionC,
        SettlingSeconds = orp.Settled?.TotalSeconds,
        Extrapolated = orp.Offset.Extrapolated,
    };

    private static string? ReadPh(StoredDocument document, out ElectrodeCalibration? calibration)
    {
        calibration = null;
        if (document is not { SlopeMillivoltsPerPh: { } slope, OffsetMillivolts: { } offset, TemperatureC: { } temperature, Points: { Count: > 0 } points })
        {
            return "slope, offset, temperature or points are missing";
        }

        double[] numbers = [slope, offset, temperature, .. points.SelectMany(one => (double[])[one.Ph, one.Millivolts, one.TemperatureC])];
        if (!numbers.All(double.IsFinite))
        {
            return Endless;
        }

        calibration = new PhCalibration(
            document.Fit == "pieces" ? PhFitKind.Pieces : PhFitKind.Line,
            new PhLine(slope, offset, temperature),
            [.. points.Select(one => new PhCalibrationPoint(one.Buffer, new(one.Millivolts, one.Ph, one.TemperatureC), Seconds(one.SettlingSeconds), one.Extrapolated))]);
        return null;
    }

    private static string? ReadOrp(StoredDocument document, out ElectrodeCalibration? calibration)
    {
        calibration = null;
        if (document is not { Solution: { } solution, Reference: { } reference, MeasuredMillivolts: { } measured, OffsetMillivolts: { } offset, TemperatureC: { } temperature })
        {
            return "solution, reference, reading, offset or temperature are missing";
        }

        if (!double.IsFinite(measured) || !double.IsFinite(offset) || !double.IsFinite(temperature))
        {
            return Endless;
        }

        calibration = new OrpCalibration(
            solution, reference, measured, new OrpOffset(offset, document.Extrapolated), temperature, Seconds(document.SettlingSeconds));
        return null;
    }

    private static TimeSpan? Seconds(double? seconds) => seconds is { } known ? TimeSpan.FromSeconds(known) : null;
}

/// <summary>The stored form; which members are there depends on its kind.</summary>
internal sealed record StoredDocument
{
    public int Version { get; init; }

    public string? Kind { get; init; }

    public string? Fit { get; init; }

    public double? SlopeMillivoltsPerPh { get; init; }

    public double? OffsetMillivolts { get; init; }

    public double? TemperatureC { get; init; }

    public string? Solution { get; init; }

    public string? Reference { get; init; }

    public double? MeasuredMillivolts { get; init; }

    public double? SettlingSeconds { get; init; }

    public bool Extrapolated { get; init; }

    public IReadOnlyList<StoredPoint>? Points { get; init; }
}

/// <summary>One buffer in the stored form.</summary>
internal sealed record StoredPoint(string Buffer, double Ph, double Millivolts, double TemperatureC, double? SettlingSeconds = null, bool Extrapolated = false);

/// <summary>Readers and writers made at build time.</summary>
[JsonSerializable(typeof(StoredDocument))]
internal sealed partial class CalibrationJson : JsonSerializerContext
{
    public static CalibrationJson Compact { get; } = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        RespectRequiredConstructorParameters = true,
        RespectNullableAnnotations = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });
}
