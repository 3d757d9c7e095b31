namespace VatWatch.Notifications.Mqtt;

/// <summary>How many commands are looked at: a burst of 20, then one each second. Not thread safe.</summary>
/// <remarks>A person with a phone sends one; both numbers are a judgement of ours that leaves room for a whole studio after an outage.</remarks>
internal sealed class CommandRate(TimeProvider time)
{
    private const int Burst = 20;
    private const double PerSecond = 1;
    private double _left = Burst;
    private long _at = time.GetTimestamp();

    /// <summary>Whether one more may be looked at now.</summary>
    public bool TryTake()
    {
        var now = time.GetTimestamp();
        _left = Math.Min(Burst, _left + time.GetElapsedTime(_at, now).TotalSeconds * PerSecond);
        _at = now;
        if (_left < 1)
        {
            return false;
        }

        _left--;
        return true;
    }
}
