using System.Collections.Concurrent;
using VatWatch.Conditions.Heating;

namespace VatWatch.Pipeline.Stages;

/// <summary>The newest of what was learned of each vat's heat, on its way from the watch to the disk. Thread safe.</summary>
internal sealed class LearnedHeatCache
{
    private readonly ConcurrentDictionary<VatId, LearnedHeat> _newest = new();

    /// <summary>Puts the newest of a vat in place.</summary>
    public void Put(VatId vat, LearnedHeat learned) => _newest[vat] = learned;

    /// <summary>The newest of every vat.</summary>
    public IReadOnlyCollection<KeyValuePair<VatId, LearnedHeat>> Newest => [.. _newest];
}
