namespace VatWatch.Plans.Day;

/// <summary>One dip of a load, as foreseen. Times are UTC.</summary>
/// <param name="Load">Number of the load, from 1.</param>
/// <param name="Number">Which of its dips, from 1.</param>
/// <param name="In">When the goods go in.</param>
/// <param name="Out">When they come out.</param>
/// <param name="Aired">When they have been in the air long enough.</param>
/// <param name="LiquorC">The liquor before, °C.</param>
/// <param name="CooledC">The liquor when they come out, °C.</param>
/// <param name="Waited">How long the vat made them wait for warmth or rest after it was free.</param>
public sealed record PlannedDip(int Load, int Number, DateTimeOffset In, DateTimeOffset Out, DateTimeOffset Aired, double LiquorC, double CooledC, TimeSpan Waited);

/// <summary>What goes into the vat together.</summary>
/// <param name="Number">Its place in the order, from 1.</param>
/// <param name="Goods">Kind and dips, with the weight of this load.</param>
/// <param name="Of">Into how many loads its goods were divided.</param>
/// <param name="Dips">Its dips, first to last.</param>
public sealed record PlannedLoad(int Number, Goods Goods, int Of, IReadOnlyList<PlannedDip> Dips);

/// <summary>What is added to a vat between two dips. Immutable.</summary>
/// <param name="AfterDips">How many dips of the day come before it.</param>
/// <param name="From">When it goes in, UTC.</param>
/// <param name="To">When it has worked, UTC.</param>
/// <param name="Doses">What, and how much of it.</param>
public sealed record PlannedAddition(int AfterDips, DateTimeOffset From, DateTimeOffset To, IReadOnlyList<PlannedDose> Doses);

/// <summary>So much of something.</summary>
/// <param name="Material">The log book's word for it, such as "soda-ash".</param>
/// <param name="Amount">g of what is weighed, L of what is poured.</param>
public readonly record struct PlannedDose(string Material, double Amount);

/// <summary>A day's batches. Immutable.</summary>
public sealed record DayPlan
{
    /// <summary>When work begins, UTC.</summary>
    public required DateTimeOffset Begins { get; init; }

    /// <summary>The loads in their order: the darkest first.</summary>
    public required IReadOnlyList<PlannedLoad> Loads { get; init; }

    /// <summary>When the last load has been aired, UTC.</summary>
    public required DateTimeOffset Ends { get; init; }

    /// <summary>The same with the stronger heater and the quicker recovery.</summary>
    public required DateTimeOffset EndsEarly { get; init; }

    /// <summary>The same with the weaker heater and the slower recovery; null when that heater does not keep up.</summary>
    public DateTimeOffset? EndsLate { get; init; }

    /// <summary>When the vat rests, covered.</summary>
    public required IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)> Rests { get; init; }

    /// <summary>What is added to the vat on the way, in order of time.</summary>
    public IReadOnlyList<PlannedAddition> Additions { get; init; } = [];

    /// <summary>Every dip in order of time.</summary>
    public IEnumerable<PlannedDip> Dips => Loads.SelectMany(load => load.Dips).OrderBy(dip => dip.In);
}
