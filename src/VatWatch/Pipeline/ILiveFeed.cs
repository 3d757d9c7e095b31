using System.Threading.Channels;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline;

/// <summary>The newest picture of every vat, and the stream of what changes in it. Reads never wait. Thread safe.</summary>
public interface ILiveFeed
{
    /// <summary>The vat's clock, for ages.</summary>
    WatchClock Clock { get; }

    /// <summary>Every vat, in the order of the configuration.</summary>
    IReadOnlyList<LiveVat> Vats { get; }

    /// <summary>A vat by its id; null when there is none.</summary>
    LiveVat? Find(string vat) => Vats.FirstOrDefault(live => live.Definition.Id.Value == vat);

    /// <summary>Alarms about the daemon itself that are not in normal.</summary>
    IReadOnlyList<AlarmStatus> DaemonAlarms { get; }

    /// <summary>
    /// What happens from now on: <see cref="Measurement"/>, <see cref="VatCondition"/> (when it changed in state, reasons or rounded numbers),
    /// <see cref="AlarmStatus"/> and <see cref="SessionChange"/> (after they are on disk). A subscriber that lags loses the oldest; <paramref name="capacity"/> bounds it.
    /// </summary>
    ILiveSubscription Subscribe(int capacity);
}

/// <summary>The newest of everything about one vat, as one immutable picture.</summary>
/// <param name="Latest">Newest measurement of each probe, in the order of the configuration; a probe that never spoke is absent.</param>
/// <param name="Alarms">Every alarm that is not in normal, weightiest and newest first.</param>
public sealed record LiveVat(VatDefinition Definition, IReadOnlyList<Measurement> Latest, VatCondition Condition, IReadOnlyList<AlarmStatus> Alarms);

/// <summary>One follower of the live feed; disposing it ends the following.</summary>
public interface ILiveSubscription : IDisposable
{
    /// <summary>Events, oldest first.</summary>
    ChannelReader<object> Events { get; }

    /// <summary>How many events this follower has lost by lagging.</summary>
    long Dropped { get; }
}

/// <summary>The log book of a vat has a new or changed line; told to those who look at it.</summary>
public sealed record SessionChange(VatId Vat);
