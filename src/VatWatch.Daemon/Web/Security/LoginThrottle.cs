using System.Net;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// Slows down guessing: <see cref="TriesPerAddress"/> wrong passwords per address and <see cref="TriesInAll"/> from everywhere within
/// <see cref="Window"/>, and one check at a time, since a check is deliberately slow. Thread safe.
/// </summary>
internal sealed class LoginThrottle(TimeProvider time) : IDisposable
{
    /// <summary>Wrong passwords one address may try in a window: enough for a tired dyer.</summary>
    public const int TriesPerAddress = 5;

    /// <summary>Wrong passwords all addresses together may try in a window.</summary>
    public const int TriesInAll = 30;

    /// <summary>Length of a window.</summary>
    public static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    private static readonly TimeSpan LongestQueue = TimeSpan.FromSeconds(5);
    private readonly SemaphoreSlim _oneAtATime = new(1);
    private readonly Dictionary<IPAddress, int> _tries = [];
    private readonly Lock _gate = new();
    private long _windowStart = time.GetTimestamp();
    private int _all;
    private long _refused;

    /// <summary>Tries refused without a look at the password, since the start.</summary>
    public long Refused => Interlocked.Read(ref _refused);

    /// <summary>Checks a password.</summary>
    public async Task<LoginAnswer> CheckAsync(Passwords passwords, string password, IPAddress? from, CancellationToken cancel)
    {
        var address = from ?? IPAddress.None;
        if (!TryBegin(address))
        {
            return default;
        }

        if (!await _oneAtATime.WaitAsync(LongestQueue, cancel))
        {
            return default;
        }

        try
        {
            var role = passwords.RoleOf(password);
            if (role is not null)
            {
                TakeBack(address);
            }

            return new(true, role);
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    public void Dispose() => _oneAtATime.Dispose();

    private bool TryBegin(IPAddress address)
    {
        lock (_gate)
        {
            if (time.GetElapsedTime(_windowStart) >= Window)
            {
                _windowStart = time.GetTimestamp();
                _tries.Clear();
                _all = 0;
            }

            var mine = _tries.GetValueOrDefault(address);
            if (mine >= TriesPerAddress || _all >= TriesInAll)
            {
                Interlocked.Increment(ref _refused);
                return false;
            }

            _tries[address] = mine + 1;
            _all++;
            return true;
        }
    }

    private void TakeBack(IPAddress address)
    {
        lock (_gate)
        {
            if (_tries.TryGetValue(address, out var mine) && mine > 0)
            {
                _tries[address] = mine - 1;
                _all--;
            }
        }
    }
}

/// <summary>What became of a password.</summary>
/// <param name="WasLookedAt">False when there were too many tries to look at this one.</param>
/// <param name="Role">Whose password it is; null when it is nobody's.</param>
internal readonly record struct LoginAnswer(bool WasLookedAt, Role? Role);
