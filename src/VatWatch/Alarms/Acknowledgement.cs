using VatWatch.Vats;

namespace VatWatch.Alarms;

/// <summary>Somebody says they have seen an alarm.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Alarm">The alarm.</param>
/// <param name="By">Who, as they gave it; at most 60 characters.</param>
/// <param name="Via">The way it came: <c>mqtt</c>, <c>page</c>, <c>api</c> or <c>verb</c>.</param>
public sealed record Acknowledgement(VatId Vat, AlarmName Alarm, string By, string Via);
