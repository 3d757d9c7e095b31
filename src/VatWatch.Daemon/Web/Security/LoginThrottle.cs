using System.Net;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// Slows down guessing without shutting anybody out: after <see cref="FreeTries"/> wrong passwords from an address each further one is looked at later, up to
/// <see cref="LongestDelay"/>, one at a time. A check is deliberately slow, so strangers queue for one; addresses that are known good have a queue of their own
/// and wait only after many wrong ones. Thread safe.
/// </summary>
internal sealed class LoginThrottle(TimeProvider time, KnownAddresses known, ILogger<LoginThrottle> log) : IDisposable
{
    /// <summary>Wrong passwords without a wait: enough for a tired dyer.</summary>
    public const int FreeTries = 5;

    /// <summary>The same from an address somebody has signed in from.</summary>
    public const int FreeTriesOfKnown = 20;

    /// <summary>Strangers that wait at one time; the next is asked to come again.</summary>
    public const int MostWaiting = 50;

    /// <summary>Longest wait before a password is looked at.</summary>
    public static readonly TimeSpan LongestDelay = TimeSpan.FromSeconds(16);

    /// <summary>After so long without a wrong password an address begins anew.</summary>
    public static readonly TimeSpan Forgiven = TimeSpan.FromMinutes(10);

    /// <summary>Addresses whose wrong passwords are counted; past that the oldest is forgotten.</summary>
    private const int MostCounted = 1000;

    private readonly SemaphoreSlim _strangers = new(1);
    private readonly SemaphoreSlim _owners = new(1);
    private readonly Dictionary<IPAddress, Wrong> _wrong = [];
    private readonly Lock _gate = new();
    private int _waiting;
    private long _refused;
    private long _delayed;

    /// <summary>Passwords not looked at, because another of the same address was waiting or too many were.</summary>
    public long Refused => Interlocked.Read(ref _refused);

    /// <summary>Passwords that had to wait.</summary>
    public long Delayed => Interlocked.Read(ref _delayed);

    /// <summary>Checks a password, after a wait where there were many wrong ones.</summary>
    public async Task<LoginAnswer> CheckAsync(Passwords passwords, string password, IPAddress? from, CancellationToken cancel)
    {
        var place = KnownAddresses.PlaceOf(from);
        var isKnown = known.Knows(place);
        if (!TryBegin(place, isKnown, out var delay))
        {
            Interlocked.Increment(ref _refused);
            return default;
        }

        try
        {
            if (delay > TimeSpan.Zero)
            {
                Interlocked.Increment(ref _delayed);
                await Task.Delay(delay, time, cancel);
            }

            var role = await LookAsync(passwords, password, isKnown ? _owners : _strangers, cancel);
            Count(place, role is not null, isKnown, from);
            return new(true, role);
        }
        finally
        {
            End(place, isKnown);
        }
    }

    public void Dispose()
    {
        _strangers.Dispose();
        _owners.Dispose();
    }

    private static async Task<Role?> LookAsync(Passwords passwords, string password, SemaphoreSlim queue, CancellationToken cancel)
    {
        await queue.WaitAsync(cancel);
        try
        {
            return passwords.RoleOf(password);
        }
        finally
        {
            queue.Release();
        }
    }

    private bool TryBegin(IPAddress place, bool isKnown, out TimeSpan delay)
    {
        lock (_gate)
        {
            delay = default;
            if (!isKnown && _waiting >= MostWaiting)
            {
                return false;
            }

            if (_wrong.TryGetValue(place, out var wrong) && time.GetElapsedTime(wrong.Last) < Forgiven)
            {
                var past = wrong.Times - (isKnown ? FreeTriesOfKnown : FreeTries);
                if (past >= 0)
                {
                    if (wrong.IsWaiting)
                    {
                        return false;
                    }

                    delay = TimeSpan.FromSeconds(Math.Min(LongestDelay.TotalSeconds, Math.Pow(2, Math.Min(past, 10))));
                    wrong.IsWaiting = true;
                }
            }
            else
            {
                _wrong.Remove(place);
            }

            _waiting += isKnown ? 0 : 1;
            return true;
        }
    }

    private void End(IPAddress place, bool isKnown)
    {
        lock (_gate)
        {
            _waiting -= isKnown ? 0 : 1;
            if (_wrong.TryGetValue(place, out var wrong))
            {
                wrong.IsWaiting = false;
            }
        }
    }

    private void Count(IPAddress place, bool isRight, bool isKnown, IPAddress? from)
    {
        if (isRight)
        {
            known.Remember(place);
            lock (_gate)
            {
                _wrong.Remove(place);
            }

            return;
        }

        Log.WrongPassword(log, from);
        lock (_gate)
        {
            if (!_wrong.TryGetValue(place, out var wrong))
            {
                if (_wrong.Count >= MostCounted)
                {
                    _wrong.Remove(_wrong.MinBy(pair => pair.Value.Last).Key);
                }

                _wrong[place] = wrong = new();
            }

            wrong.Times++;
            wrong.Last = time.GetTimestamp();
            if (wrong.Times == (isKnown ? FreeTriesOfKnown : FreeTries))
            {
                Log.PasswordsSlowed(log, from, wrong.Times);
            }
        }
    }

    private sealed class Wrong
    {
        public int Times { get; set; }

        public long Last { get; set; }

        public bool IsWaiting { get; set; }
    }
}

/// <summary>What became of a password.</summary>
/// <param name="WasLookedAt">False when there were too many tries to look at this one.</param>
/// <param name="Role">Whose password it is; null when it is nobody's.</param>
internal readonly record struct LoginAnswer(bool WasLookedAt, Role? Role);
