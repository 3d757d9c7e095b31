using System.Threading.Channels;

namespace VatWatch.Pipeline;

/// <summary>One follower of the live feed; disposing it ends the following.</summary>
public interface ILiveSubscription : IDisposable
{
    /// <summary>Events, oldest first.</summary>
    ChannelReader<object> Events { get; }

    /// <summary>How many events this follower has lost by lagging.</summary>
    long Dropped { get; }
}
