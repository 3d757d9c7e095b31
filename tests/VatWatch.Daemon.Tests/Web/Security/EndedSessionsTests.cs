using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class EndedSessionsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-ended-").FullName;
    private readonly FakeTimeProvider _time = new(new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero));

    private string File => Path.Combine(_folder, "ended-sessions");

    [Fact]
    public void A_session_stays_ended_over_a_new_start_until_its_cookie_has_run_out()
    {
        New().Add("AB12");
        Assert.True(New().Contains("AB12"));
        Assert.False(New().Contains("CD34"));

        _time.Advance(EndedSessions.CookieLife + TimeSpan.FromSeconds(1));
        New().Add("CD34");
        Assert.Equal(["CD34 " + _time.GetUtcNow().ToUnixTimeSeconds()], System.IO.File.ReadLines(File));
    }

    [Fact]
    public void Lines_that_are_none_are_left_out()
    {
        System.IO.File.WriteAllText(File, "\0\0\n12\nAB12 17\nCD34 many\nEF56 99999999999999999\n");
        Assert.True(New().Contains("AB12"));
        Assert.False(New().Contains("CD34") || New().Contains("EF56"));
    }

    [Fact]
    public void Without_a_disk_it_is_ended_all_the_same()
    {
        var sessions = new EndedSessions(Path.Combine(_folder, "no", "such", "folder"), _time, NullLogger<EndedSessions>.Instance);
        sessions.Add("AB12");
        Assert.True(sessions.Contains("AB12"));
    }

    public void Dispose() => Directory.Delete(_folder, true);

    private EndedSessions New() => new(File, _time, NullLogger<EndedSessions>.Instance);
}
