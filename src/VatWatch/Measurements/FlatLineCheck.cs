namespace VatWatch.Measurements;

/// <summary>A value that used to move and has been exactly the same for longer than 15 min: a frozen instrument. Not thread safe.</summary>
/// <param name="measures">What it measures.</param>
internal sealed class FlatLineCheck(Quantity measures)
{
    private readonly FrozenValue _frozen = FrozenValue.Of(measures);

    /// <summary>The doubt about this value, as a clause that does not change while it lasts; null when there is none.</summary>
    public string? Doubt(TimeSpan at, double value)
    {
        _frozen.Add(at, value);
        return _frozen.IsFrozen
            ? $"has been exactly {value:0.###} {measures.Unit()} for longer than 15 min, though it used to move"
            : null;
    }
}
