using Serilog.Events;
using Serilog.Parsing;
using VatWatch.Daemon.Wiring;

namespace VatWatch.Daemon.Tests.Wiring;

public sealed class JournalLineTests
{
    [Fact]
    public void A_line_for_the_journal_begins_with_its_priority_and_has_no_time()
    {
        using var said = new StringWriter();
        var message = new MessageTemplateParser().Parse("Watching {Site}");
        foreach (var level in (LogEventLevel[])[LogEventLevel.Information, LogEventLevel.Warning, LogEventLevel.Error, LogEventLevel.Fatal, LogEventLevel.Debug])
        {
            new JournalLine().Format(new(DateTimeOffset.UnixEpoch, level, null, message, [new("Site", new ScalarValue("hill-studio"))]), said);
        }

        Assert.Equal("<6>Watching hill-studio\n<4>Watching hill-studio\n<3>Watching hill-studio\n<2>Watching hill-studio\n<7>Watching hill-studio\n", said.ToString());
    }

    [Theory]
    [InlineData(null, null, false)]
    [InlineData("8:1234", null, false)]
    [InlineData(null, "/run/systemd/notify", false)]
    [InlineData("8:1234", "/run/systemd/notify", true)]
    public void Only_a_service_whose_output_goes_to_the_journal_writes_such_lines(string? stream, string? manager, bool wanted) =>
        Assert.Equal(wanted, JournalLine.IsWanted(name => name == "JOURNAL_STREAM" ? stream : name == "NOTIFY_SOCKET" ? manager : null));
}
