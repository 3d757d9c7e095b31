namespace VatWatch.Alarms;

/// <summary>
/// Name of an alarm within its vat, for example <c>overheat</c>; an alarm about one probe, bus or contact carries that behind a full stop, for
/// example <c>probe-silent.liquor</c>.
/// </summary>
public readonly record struct AlarmName(string Value)
{
    /// <summary>No alarm: what a note about a vat itself is filed under.</summary>
    public static readonly AlarmName Note = new("note");

    /// <summary>An alarm about one thing among several, for example <c>probe-silent.liquor</c>.</summary>
    public AlarmName(string kind, string about)
        : this($"{kind}.{about}")
    {
    }

    /// <summary>The word of its kind: the name up to the full stop.</summary>
    public string Kind => Value.Split('.', 2)[0];

    public override string ToString() => Value;
}
