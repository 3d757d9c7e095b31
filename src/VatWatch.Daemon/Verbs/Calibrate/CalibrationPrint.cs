using System.Text.Json;
using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>Writes an outcome for people or for programs.</summary>
internal static class CalibrationPrint
{
    public static void Text(CalibrationOutcome outcome, TimeZoneInfo zone, DisplayUnits units, TextWriter output)
    {
        output.WriteLine($"Probe {outcome.Probe.Id}, {WallTime.Text(outcome.Utc, zone)}");
        switch (outcome.Calibration)
        {
            case PhCalibration ph:
                Buffers(ph, units, output);
                break;
            case OrpCalibration orp:
                output.WriteLine(units.Words(
                    $"  {orp.Solution} at {orp.SolutionC:0.#} °C against {orp.Reference}: expected {orp.ExpectedMillivolts:0.0;−0.0} mV, shown {orp.MeasuredMillivolts:0.0;−0.0} mV{Beyond(orp.Offset.Extrapolated, "solution or reference")}"));
                break;
        }

        foreach (var finding in outcome.Health.Findings)
        {
            output.WriteLine($"  {finding.Verdict.Word(),-5}  {units.Words(finding.Sentence)}");
        }

        output.WriteLine(outcome.Row is { } row
            ? $"Verdict: {outcome.Health.Verdict.Word()}. Stored as calibration {row}; a running daemon uses it within half a minute."
            : $"Verdict: {outcome.Health.Verdict.Word()}. Not stored.");
    }

    public static void Json(CalibrationOutcome outcome, TextWriter output) => AdviceWriter.WriteJson(output, writer =>
    {
        writer.WriteString("probe", outcome.Probe.Id.Value);
        writer.WriteString("measures", outcome.Probe.Quantity.Word());
        writer.WriteString("time", outcome.Utc.UtcDateTime);
        switch (outcome.Calibration)
        {
            case PhCalibration ph:
                Write(writer, ph);
                break;
            case OrpCalibration orp:
                Write(writer, orp);
                break;
        }

        writer.WriteString("verdict", outcome.Health.Verdict.Word());
        AdviceWriter.WriteObjects(writer, "findings", outcome.Health.Findings, finding =>
        {
            writer.WriteString("verdict", finding.Verdict.Word());
            writer.WriteString("text", finding.Sentence);
        });
        writer.WriteBoolean("stored", outcome.Row is not null);
        if (outcome.Row is { } row)
        {
            writer.WriteNumber("calibration", row);
        }
    });

    private static void Buffers(PhCalibration ph, DisplayUnits units, TextWriter output)
    {
        foreach (var (one, residual) in ph.Points.Zip(ph.ResidualsMillivolts))
        {
            var (point, off) = (one.Point, residual == 0 ? 0 : Math.Round(residual, 2));
            output.WriteLine(units.Words(
                $"  {one.Buffer}: pH {point.BufferPh:0.00#} at {point.TemperatureC:0.#} °C, {point.ElectrodeMillivolts:0.0;−0.0} mV, {off:+0.00;−0.00;0.00} mV off the line{Beyond(one.Extrapolated, "buffer")}"));
        }

        if (ph.Points.Count == 1)
        {
            output.WriteLine("  One buffer moves the offset only; the slope is that of the calibration before, or an ideal electrode's.");
        }
    }

    private static void Write(Utf8JsonWriter writer, PhCalibration ph)
    {
        writer.WriteString("fit", ph.Fit == PhFitKind.Pieces ? "pieces" : "line");
        writer.WriteNumber("slopePercent", Math.Round(ph.Line.SlopePercent, 3));
        writer.WriteNumber("slopeMillivoltsPerPh", Math.Round(ph.Line.SlopeMillivoltsPerPh, 4));
        writer.WriteNumber("offsetMillivolts", Math.Round(ph.Line.OffsetMillivolts, 3));
        writer.WriteNumber("temperatureC", ph.Line.TemperatureC);
        AdviceWriter.WriteObjects(writer, "points", ph.Points.Zip(ph.ResidualsMillivolts), each =>
        {
            var (one, residual) = each;
            writer.WriteString("buffer", one.Buffer);
            writer.WriteNumber("ph", Math.Round(one.Point.BufferPh, 4));
            writer.WriteNumber("millivolts", one.Point.ElectrodeMillivolts);
            writer.WriteNumber("temperatureC", one.Point.TemperatureC);
            writer.WriteNumber("residualMillivolts", Math.Round(residual, 3));
            writer.WriteBoolean("extrapolated", one.Extrapolated);
        });
        writer.WriteStartArray("piecesSlopePercent");
        foreach (var line in ph.Fit == PhFitKind.Pieces ? ph.Lines : [])
        {
            writer.WriteNumberValue(Math.Round(line.SlopePercent, 3));
        }

        writer.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter writer, OrpCalibration orp)
    {
        writer.WriteString("solution", orp.Solution);
        writer.WriteString("reference", orp.Reference);
        writer.WriteNumber("temperatureC", orp.SolutionC);
        writer.WriteNumber("expectedMillivolts", Math.Round(orp.ExpectedMillivolts, 3));
        writer.WriteNumber("measuredMillivolts", orp.MeasuredMillivolts);
        writer.WriteNumber("offsetMillivolts", Math.Round(orp.Offset.Millivolts, 3));
        writer.WriteBoolean("extrapolated", orp.Offset.Extrapolated);
    }

    private static string Beyond(bool extrapolated, string what) => extrapolated ? $" (beyond the temperatures of the {what}'s table: less certain)" : "";
}
