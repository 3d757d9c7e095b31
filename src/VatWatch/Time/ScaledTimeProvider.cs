namespace VatWatch.Time;

/// <summary>A clock that runs <paramref name="speed"/> times as fast as another, for watching a simulated night in minutes. Thread safe.</summary>
/// <remarks>
/// The clock does not run away from whoever samples the vat: past the allowance that <see cref="Renew"/> gave last it creeps at
/// <see cref="CreepingSpeed"/>. Otherwise a machine that stalls for a tenth of a second would make twelve seconds in which no probe spoke.
/// </remarks>
/// <param name="inner">The clock that is sped up.</param>
/// <param name="speed">Factor, 1 to 10,000.</param>
/// <param name="origin">What the wall clock shows at the start.</param>
public sealed class ScaledTimeProvider(TimeProvider inner, double speed, DateTimeOffset origin) : TimeProvider
{
    /// <summary>Speed while it waits for the vat to be sampled: slow enough for no alarm of silence, and never nothing, so that nobody waits for ever.</summary>
    public const double CreepingSpeed = 4;

    /// <summary>Speed while nobody has sampled the vat yet: what starts up then must not use up the patience of an alarm.</summary>
    private const double FirstSpeed = 1;

    /// <summary>What passes before anybody has sampled the vat.</summary>
    public static readonly TimeSpan FirstAllowance = TimeSpan.FromSeconds(1);

    /// <summary>Finest wait of a timer; less would be a wait of zero.</summary>
    private static readonly TimeSpan OneMillisecond = TimeSpan.FromMilliseconds(1);

    private readonly Lock _lock = new();
    private long _innerLook = inner.GetTimestamp();
    private long _scaledTicks;
    private long _slowAfter = FirstAllowance.Ticks;
    private double _creepingSpeed = FirstSpeed;

    /// <summary>Ticks of 100 ns of scaled time.</summary>
    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp()
    {
        lock (_lock)
        {
            var look = inner.GetTimestamp();
            var elapsed = inner.GetElapsedTime(_innerLook, look).Ticks;
            _innerLook = look;
            var atFullSpeed = Math.Min((long)(elapsed * speed), Math.Max(0, _slowAfter - _scaledTicks));
            var creeping = (elapsed - atFullSpeed / speed) * Math.Min(speed, _creepingSpeed);
            _scaledTicks += atFullSpeed + Math.Max(0, (long)creeping);
            return _scaledTicks;
        }
    }

    /// <summary>The vat was sampled: the clock may go on for <paramref name="allowance"/> of scaled time from here.</summary>
    public void Renew(TimeSpan allowance)
    {
        lock (_lock)
        {
            _creepingSpeed = CreepingSpeed;
            _slowAfter = Math.Max(_slowAfter, _scaledTicks + allowance.Ticks);
        }
    }

    public override DateTimeOffset GetUtcNow() => origin + TimeSpan.FromTicks(GetTimestamp());

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        new ScaledTimer(this, inner.CreateTimer(callback, state, Shrink(dueTime), Shrink(period)));

    private TimeSpan Shrink(TimeSpan scaled)
    {
        if (scaled == Timeout.InfiniteTimeSpan || scaled <= TimeSpan.Zero)
        {
            return scaled;
        }

        var real = TimeSpan.FromTicks((long)(scaled.Ticks / speed));
        return real < OneMillisecond ? OneMillisecond : real;
    }

    private sealed class ScaledTimer(ScaledTimeProvider owner, ITimer timer) : ITimer
    {
        public bool Change(TimeSpan dueTime, TimeSpan period) => timer.Change(owner.Shrink(dueTime), owner.Shrink(period));

        public void Dispose() => timer.Dispose();

        public ValueTask DisposeAsync() => timer.DisposeAsync();
    }
}
