using VatWatch.Measurements;

namespace VatWatch.Charts.Traces;

/// <summary>
/// Cuts a trace into <see cref="TraceRun"/>s: at gaps, at readings without a value, where the wall clock was set back, and where good turns
/// to suspect or back. A suspect run reaches from the good value before it to the good value after it.
/// </summary>
internal static class TraceRuns
{
    /// <summary>The runs of a trace in order of time; seconds count from <paramref name="from"/>.</summary>
    public static IReadOnlyList<TraceRun> Of(ProbeTrace trace, DateTimeOffset from)
    {
        var runs = new List<TraceRun>();
        List<TracePoint>? open = null;
        var openSuspect = false;
        Measurement? before = null;

        void Close()
        {
            if (open is not null)
                runs.Add(new TraceRun(openSuspect, open));
            open = null;
        }

        foreach (var reading in trace.Readings)
        {
            if (!HasValue(reading, out var value))
            {
                Close();
                before = null;
                continue;
            }

            var point = new TracePoint((reading.Stamp.Utc - from).TotalSeconds, value);
            var suspect = reading.Quality == Quality.Suspect;
            if (before is not null && !Joins(before, reading, trace.LongestStep))
                Close();
            if (open is null)
                (open, openSuspect) = ([point], suspect);
            else if (suspect == openSuspect)
                open.Add(point);
            else if (suspect)
            {
                var lastGood = open[^1];
                Close();
                (open, openSuspect) = ([lastGood, point], true);
            }
            else
            {
                open.Add(point);
                Close();
                (open, openSuspect) = ([point], false);
            }

            before = reading;
        }

        Close();
        return runs;
    }

    /// <summary>Whether this reading has a finite value that may be shown, good or suspect.</summary>
    public static bool HasValue(Measurement reading, out double value)
    {
        value = reading.Value ?? double.NaN;
        return reading.Quality is Quality.Good or Quality.Suspect && double.IsFinite(value);
    }

    private static bool Joins(Measurement before, Measurement after, TimeSpan longestStep) =>
        after.Stamp.Utc >= before.Stamp.Utc && Elapsed.Between(before.Stamp, after.Stamp) <= longestStep;
}

/// <summary>One value on a time axis.</summary>
/// <param name="Seconds">Since the start of the record, by the wall clock.</param>
/// <param name="Value">In the canonical unit.</param>
internal readonly record struct TracePoint(double Seconds, double Value);

/// <summary>A stretch of values that a line may join without claiming what was not read.</summary>
/// <param name="Suspect">True when the line is drawn as doubtful.</param>
/// <param name="Points">In order of time; a single one is a dot.</param>
internal sealed record TraceRun(bool Suspect, IReadOnlyList<TracePoint> Points);
