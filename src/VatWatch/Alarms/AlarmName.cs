namespace VatWatch.Alarms;

/// <summary>
/// Name of an alarm within its vat, for example <c>overheat</c>; alarms about one probe carry it behind a full stop, for example
/// <c>probe-silent.liquor</c>.
/// </summary>
public readonly record struct AlarmName(string Value)
{
    public override string ToString() => Value;
}
