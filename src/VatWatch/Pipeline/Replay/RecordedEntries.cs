using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using VatWatch.Alarms.Rules.Heat;
using VatWatch.Probes.Recorded;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Vats.Configuration;

namespace VatWatch.Pipeline.Replay;

/// <summary>
/// Reads recorded entries of the log book: comma-separated values (RFC 4180) whose first line names the columns <c>time</c>, <c>entry</c> and <c>value</c>. Times are ISO
/// 8601; without an offset they are UTC. Entries are the words of the log book, and a few shorter ones. What is read has the line of the file it began on, from 1, for its
/// row; whose vat it is and who wrote it the file does not say.
/// </summary>
/// <param name="zone">Whose local time "ready 09:00" is.</param>
public sealed class RecordedEntries(TimeZoneInfo zone)
{
    private static readonly string[] Wanted = ["time", "entry", "value"];

    private static readonly Dictionary<string, EntryKind> Kinds = Enum.GetValues<EntryKind>().Where(kind => kind != EntryKind.Photo).ToDictionary(kind => kind.Word(), StringComparer.Ordinal)
        .Concat([new("yarn-in", EntryKind.DipIn), new("yarn-out", EntryKind.DipOut), new("stir", EntryKind.Stirred), new(TopUp, EntryKind.Added)])
        .ToDictionary(StringComparer.Ordinal);

    private const string TopUp = "top-up";

    private static readonly SessionEntry Nothing = new() { Id = 0, Vat = default, Kind = default, At = new(default, default, true), By = "" };

    /// <summary>Reads every entry; each line that cannot be read goes to <paramref name="onFault"/> and is left out.</summary>
    /// <exception cref="RecordedLogException">The first line does not name the columns wanted.</exception>
    public IReadOnlyList<SessionEntry> Read(TextReader reader, Action<RecordedLogFault> onFault)
    {
        var lines = new CommaSeparated(reader);
        var columns = Columns(lines);
        var entries = new List<SessionEntry>();
        while (lines.TryRead(out var fields, out var line, out var fault))
        {
            if (fault is null && fields is [var blank] && string.IsNullOrWhiteSpace(blank))
            {
                continue;
            }

            if (fault is null && TryParse(fields, columns, line, out var entry, out fault) && (entries is not [.., { At.Utc: var last }] || entry.At.Utc >= last || Fail(InOrder(entry), out fault)))
            {
                entries.Add(entry);
            }
            else
            {
                onFault(new RecordedLogFault(line, fault ?? ""));
            }
        }

        return entries;
    }

    private static int[] Columns(CommaSeparated lines)
    {
        if (!lines.TryRead(out var header, out _, out _))
        {
            throw new RecordedLogException("the file is empty; wanted a first line \"time,entry,value\"");
        }

        int[] columns = [.. Wanted.Select(name => header.FindIndex(field => field.Trim().Equals(name, StringComparison.OrdinalIgnoreCase)))];
        return Array.IndexOf(columns, -1) < 0
            ? columns
            : throw new RecordedLogException($"the first line is {ConfigNode.Quote(string.Join(',', header))}; wanted a line that names the columns time, entry and value");
    }

    private bool TryParse(List<string> fields, int[] columns, int line, out SessionEntry entry, [NotNullWhen(false)] out string? fault)
    {
        entry = Nothing;
        if (columns.Max() is var last && last >= fields.Count)
        {
            return Fail($"{fields.Count} fields; wanted at least {last + 1}, as the first line names them", out fault);
        }

        var (time, word, value) = (fields[columns[0]].Trim(), fields[columns[1]].Trim(), fields[columns[2]].Trim());
        if (!RecordedLog.TryTime(time, out var utc))
        {
            return Fail($"time is {ConfigNode.Quote(time)}; wanted ISO 8601 like \"2026-03-01T21:30:05Z\"", out fault);
        }

        if (!Kinds.TryGetValue(word, out var kind))
        {
            return Fail($"entry is {ConfigNode.Quote(word)}; wanted one of {string.Join(", ", Kinds.Keys)}", out fault);
        }

        entry = Nothing with { Id = line, Kind = kind, At = Nothing.At with { Utc = utc } };
        fault = null;
        switch (kind)
        {
            case EntryKind.HeaterOn:
                return value.Length == 0 || TryReady(value, ref entry, out fault);
            case EntryKind.Note when value.Length == 0:
                return Fail("value is empty; wanted the text of the note", out fault);
            case EntryKind.Added or EntryKind.DrawnOff or EntryKind.MadeAnew or EntryKind.Reading or EntryKind.Sign or EntryKind.Goods:
                return TryValue(value, word == TopUp ? $"{Material.Water.Word()} {value}" : value, ref entry, out fault);
            default:
                entry = entry with { Text = value.Length > 0 ? value : null };
                return true;
        }
    }

    private static bool TryValue(string seen, string value, ref SessionEntry entry, [NotNullWhen(false)] out string? fault)
    {
        if (!EntryValue.TryRead(new(default, entry.Kind, nameof(RecordedEntries)), value, out var read, out var wanted))
        {
            return Fail($"value is {ConfigNode.Quote(seen)}; wanted {wanted}", out fault);
        }

        if (SessionRules.WhyNot(read, null) is { } whyNot)
        {
            return Fail($"value is {ConfigNode.Quote(seen)}; {whyNot.Uncapitalized().TrimEnd('.')}", out fault);
        }

        fault = null;
        entry = entry with { Material = read.Material, Amount = read.Amount, Strength = read.Strength, Reading = read.Reading, Sign = read.Sign, Goods = read.Goods };
        return true;
    }

    private bool TryReady(string value, ref SessionEntry entry, [NotNullWhen(false)] out string? fault)
    {
        fault = null;
        if (value.Split(' ', StringSplitOptions.RemoveEmptyEntries) is ["ready", var when])
        {
            if (TimeOnly.TryParseExact(when, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
            {
                entry = entry with { ReadyBy = new ReadyBy(time, TimeSpan.Zero, zone).Next(entry.At.Utc) };
                return true;
            }

            if (RecordedLog.TryTime(when, out var utc))
            {
                entry = entry with { ReadyBy = utc };
                return true;
            }
        }

        return Fail($"value is {ConfigNode.Quote(value)}; wanted nothing, \"ready 09:00\" or \"ready 2026-03-02T09:00Z\"", out fault);
    }

    private static string InOrder(SessionEntry entry) => $"time is {entry.At.Utc:u}, before the line above it; wanted lines in order of time";

    private static bool Fail(string sentence, out string? fault)
    {
        fault = sentence;
        return false;
    }
}
