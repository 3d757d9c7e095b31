namespace VatWatch.Probes;

/// <summary>
/// Devices that share a line and do not answer: together they get at most a quarter of its time, so that the others keep their beat. Thread safe.
/// </summary>
internal sealed class SilentDevices(TimeProvider wall)
{
    /// <summary>Questions in a row without an answer that a device may have which answered before. One that never did has fewer.</summary>
    private const int Few = 3;

    private const int FewAtFirst = 2;

    /// <summary>What the others get of the line for each part that silent devices take.</summary>
    private const int Others = 3;

    private readonly Lock _lock = new();
    private readonly Dictionary<int, Device> _devices = [];
    private long _next = long.MinValue;

    /// <summary>How long a device may not be asked; zero when it may.</summary>
    public TimeSpan Rest(int address)
    {
        lock (_lock)
        {
            var now = wall.GetTimestamp();
            return _devices.TryGetValue(address, out var device) && device.IsSilent && Math.Max(device.Next, _next) is var next && next > now
                ? wall.GetElapsedTime(now, next)
                : TimeSpan.Zero;
        }
    }

    /// <summary>A device answered, with whatever.</summary>
    public void NoteAnswered(int address)
    {
        lock (_lock)
        {
            _devices[address] = new Device(true, 0, 0);
        }
    }

    /// <summary>A device did not answer, and kept the line for this time.</summary>
    public void NoteUnanswered(int address, TimeSpan took)
    {
        lock (_lock)
        {
            var now = wall.GetTimestamp();
            var device = _devices.GetValueOrDefault(address);
            _devices[address] = device = device with { Missed = device.Missed + 1 };
            if (device.IsSilent)
            {
                // Each waits until all the others have had their turn.
                var silent = _devices.Values.Count(each => each.IsSilent);
                var own = (long)(took.TotalSeconds * wall.TimestampFrequency);
                var turn = Others * own;
                _next = now + turn;
                _devices[address] = device with { Next = _next + ((silent - 1) * (turn + own)) };
            }
        }
    }

    private readonly record struct Device(bool HasAnswered, int Missed, long Next)
    {
        public bool IsSilent => Missed >= (HasAnswered ? Few : FewAtFirst);
    }
}
