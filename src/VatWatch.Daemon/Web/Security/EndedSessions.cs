using System.Globalization;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// The sessions that somebody signed out of, so that a copy of their cookie opens nothing any more. Kept in a file beside the cookies' keys, a line
/// <c>SESSION UNIX-SECONDS</c> each, until the cookie would have run out by itself. Thread safe.
/// </summary>
internal sealed class EndedSessions
{
    /// <summary>How long a cookie lives.</summary>
    public static readonly TimeSpan CookieLife = TimeSpan.FromDays(30);

    /// <summary>Sessions kept; the oldest goes first.</summary>
    private const int Most = 10_000;

    private readonly Lock _lock = new();
    private readonly Dictionary<string, DateTimeOffset> _ended = new(StringComparer.Ordinal);
    private readonly string? _file;
    private readonly TimeProvider _time;
    private readonly ILogger<EndedSessions> _log;

    /// <param name="file">Where they are kept; null for in memory alone.</param>
    /// <param name="time">The wall clock.</param>
    /// <param name="log">Told when the file cannot be read or written.</param>
    public EndedSessions(string? file, TimeProvider time, ILogger<EndedSessions> log)
    {
        (_file, _time, _log) = (file, time, log);
        try
        {
            foreach (var line in file is not null && File.Exists(file) ? File.ReadLines(file).Take(Most) : [])
            {
                if (line.Split(' ') is [{ Length: > 0 } session, var seconds] && long.TryParse(seconds, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at < uint.MaxValue)
                {
                    _ended[session] = DateTimeOffset.FromUnixTimeSeconds(at);
                }
            }
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            Log.SessionsNotKept(log, problem.Message);
        }
    }

    /// <summary>Whether somebody signed out of it.</summary>
    public bool Contains(string session)
    {
        lock (_lock)
        {
            return _ended.ContainsKey(session);
        }
    }

    /// <summary>Ends one, at once and, where the disk takes it, also after a new start.</summary>
    public void Add(string session)
    {
        lock (_lock)
        {
            var now = _time.GetUtcNow();
            _ended[session] = now;
            foreach (var old in _ended.Where(pair => now - pair.Value > CookieLife).Select(pair => pair.Key).ToList())
            {
                _ended.Remove(old);
            }

            if (_ended.Count > Most)
            {
                _ended.Remove(_ended.MinBy(pair => pair.Value).Key);
            }

            Write();
        }
    }

    private void Write()
    {
        if (_file is null)
        {
            return;
        }

        try
        {
            var next = _file + ".new";
            File.WriteAllLines(next, _ended.Select(pair => $"{pair.Key} {pair.Value.ToUnixTimeSeconds()}"));
            File.Move(next, _file, overwrite: true);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            Log.SessionsNotKept(_log, problem.Message);
        }
    }
}
