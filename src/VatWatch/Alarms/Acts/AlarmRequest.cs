using System.Diagnostics.CodeAnalysis;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Acts;

/// <summary>What somebody asks to be done with an alarm, as it came from a topic, a page, a program or the command line: nothing is checked yet.</summary>
/// <param name="Kind">What is asked.</param>
/// <param name="Alarm">The alarm; null for a note about the vat.</param>
/// <param name="Via">The way it came, one of ours.</param>
public sealed record AlarmRequest(AlarmActKind Kind, string? Vat, string? Alarm, string? By, string Via)
{
    /// <summary>Longest name of a person, characters.</summary>
    public const int LongestBy = 60;

    /// <summary>Longest reason or note, characters.</summary>
    public const int LongestText = 200;

    /// <summary>Longest time on the shelf that may be asked for, min; the alarm's own settings may allow less.</summary>
    public const int LongestMinutes = 24 * 60;

    /// <summary>How long to shelve, min.</summary>
    public double? Minutes { get; init; }

    /// <summary>The reason or the note.</summary>
    public string? Text { get; init; }

    /// <summary>Checks and cleans everything; a refusal is a clause that says what was seen and what was wanted.</summary>
    public bool TryMake([NotNullWhen(true)] out AlarmAct? act, [NotNullWhen(false)] out string? fault)
    {
        act = null;
        var (by, text) = (FreeText.Clean(By), FreeText.Clean(Text));
        fault = FaultOfPlace() ?? FaultOfLength(by, "name in \"by\"", LongestBy) ?? FaultOfTime() ?? FaultOfText(text);
        if (fault is not null)
        {
            return false;
        }

        act = new(Kind, new VatId(Vat!), Alarm is { } alarm ? new AlarmName(alarm) : AlarmName.Note, by, Via)
        {
            For = Kind == AlarmActKind.Shelve ? TimeSpan.FromMinutes(Minutes!.Value) : TimeSpan.Zero,
            Text = WantsText ? text : null,
        };
        return true;
    }

    private bool WantsText => Kind is AlarmActKind.Shelve or AlarmActKind.TakeOutOfService or AlarmActKind.Note;

    private string? FaultOfPlace()
    {
        if (Vat is null || (Vat != VatId.Daemon.Value && !ConfigNode.IsName(Vat)))
        {
            return $"the vat \"{FreeText.Shown(Vat)}\" cannot be the name of one; wanted a name such as \"madder-lane\", or \"{VatId.Daemon}\" for alarms of VatWatch itself";
        }

        return (Alarm is null && Kind == AlarmActKind.Note) || (Alarm is not null && ConfigNode.IsNameOfOne(Alarm))
            ? null
            : $"the alarm \"{FreeText.Shown(Alarm)}\" cannot be the name of one; wanted a name such as \"overheat\"";
    }

    private string? FaultOfTime() => Kind != AlarmActKind.Shelve || Minutes is >= 1 and <= LongestMinutes
        ? null
        : $"the time on the shelf is {(Minutes is { } seen ? seen.ToString() : "not given")}; wanted 1 to {LongestMinutes} minutes";

    private string? FaultOfText(string text) => WantsText ? FaultOfLength(text, Kind == AlarmActKind.Note ? "note" : "reason", LongestText) : null;

    private static string? FaultOfLength(string clean, string what, int longest) =>
        clean.Length > 0 && clean.Length <= longest ? null : $"the {what} has {clean.Length} characters that can be shown; wanted 1 to {longest}";
}
