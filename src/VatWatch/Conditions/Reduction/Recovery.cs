namespace VatWatch.Conditions.Reduction;

/// <summary>How a vat came back after a dip or an addition.</summary>
/// <param name="At">When it was disturbed.</param>
/// <param name="BeforeMillivolts">ORP before, mV against the vat's reference electrode.</param>
/// <param name="RiseMillivolts">How far ORP rose at most, mV.</param>
/// <param name="Time">Time until it was back; null when it did not come back.</param>
/// <param name="ShortfallMillivolts">How far from before it settled, mV; above 0 the vat is weaker than it was.</param>
public sealed record Recovery(Stamp At, double BeforeMillivolts, double RiseMillivolts, TimeSpan? Time, double ShortfallMillivolts);
