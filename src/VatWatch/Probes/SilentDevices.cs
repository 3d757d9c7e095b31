namespace VatWatch.Probes;

/// <summary>
/// Devices that share a line and do not answer: together they get at most a quarter of its time, so that the others keep their beat. A device is known by its
/// address or, where answers carry none, by the question that is put to it. Thread safe.
/// </summary>
internal sealed class SilentDevices(TimeProvider wall)
{
    /// <summary>Questions in a row without an answer that a device may have which answered before. One that never did has fewer.</summary>
    private const int Few = 3;

    private const int FewAtFirst = 2;

    /// <summary>What the others get of the line for each part that silent devices take.</summary>
    private const int Others = 3;

    private readonly Lock _lock = new();
    private readonly Dictionary<object, Device> _devices = [];
    private long _next = long.MinValue;

    /// <summary>How long a device may not be asked; zero when it may.</summary>
    public TimeSpan Rest(object device)
    {
        lock (_lock)
        {
            var now = wall.GetTimestamp();
            return _devices.TryGetValue(device, out var known) && known.IsSilent && Math.Max(known.Next, _next) is var next && next > now
                ? wall.GetElapsedTime(now, next)
                : TimeSpan.Zero;
        }
    }

    /// <summary>As <see cref="Rest"/>, but zero unless another device on the line answers: one that is alone, or silent with all others, keeps nobody waiting.</summary>
    public TimeSpan RestBesideOthers(object device)
    {
        lock (_lock)
        {
            return AnyAnswers ? Rest(device) : TimeSpan.Zero;
        }
    }

    /// <summary>A device answered, with whatever.</summary>
    public void NoteAnswered(object device)
    {
        lock (_lock)
        {
            if (!AnyAnswers)
            {
                // The line was away as a whole: with the first of them the others are likely back too.
                _next = long.MinValue;
                foreach (var (each, known) in _devices.ToList())
                {
                    _devices[each] = known with { Next = long.MinValue };
                }
            }

            _devices[device] = new Device(true, 0, 0);
        }
    }

    /// <summary>
    /// An answer without a name came late: any of the questions may be its own, so that none of them is silent. To leave one out then would also give the answers after it to others.
    /// </summary>
    public void NoteNamelessAnswered()
    {
        lock (_lock)
        {
            foreach (var question in _devices.Keys.OfType<string>().ToList())
            {
                _devices[question] = new Device(true, 0, 0);
            }
        }
    }

    /// <summary>A device did not answer, and kept the line for this time.</summary>
    public void NoteUnanswered(object device, TimeSpan took)
    {
        lock (_lock)
        {
            var now = wall.GetTimestamp();
            var known = _devices.GetValueOrDefault(device);
            _devices[device] = known = known with { Missed = known.Missed + 1 };
            if (known.IsSilent)
            {
                // Each waits until all the others have had their turn.
                var silent = _devices.Values.Count(each => each.IsSilent);
                var own = (long)(took.TotalSeconds * wall.TimestampFrequency);
                var turn = Others * own;
                _next = now + turn;
                _devices[device] = known with { Next = _next + ((silent - 1) * (turn + own)) };
            }
        }
    }

    private bool AnyAnswers => _devices.Values.Any(known => known is { HasAnswered: true, Missed: 0 });

    private readonly record struct Device(bool HasAnswered, int Missed, long Next)
    {
        public bool IsSilent => Missed >= (HasAnswered ? Few : FewAtFirst);
    }
}
