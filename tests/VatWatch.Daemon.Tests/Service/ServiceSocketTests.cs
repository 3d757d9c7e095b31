using VatWatch.Daemon.Service;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Service;

public sealed class ServiceSocketTests
{
    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("/")]
    [InlineData("vsock:2:1234")]
    public void Without_a_socket_of_this_machine_nobody_is_told(string? socket) => Assert.Null(ServiceSocket.From(socket, "60000000", null, 1));

    [Theory]
    [InlineData("60000000", null, 60.0)]
    [InlineData("60000000", "42", 60.0)]
    [InlineData("60000000", "43", null)]
    [InlineData("0", null, null)]
    [InlineData("soon", null, null)]
    [InlineData(null, null, null)]
    public void The_watchdog_counts_when_it_is_meant_for_this_process(string? microseconds, string? pid, double? seconds) =>
        Assert.Equal(seconds, ServiceSocket.From("/run/notify", microseconds, pid, 42)!.Watchdog?.TotalSeconds);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task What_is_told_arrives_on_a_socket_with_a_path_and_on_one_without(bool isAbstract)
    {
        using var manager = new NotifyListener(isAbstract);
        Assert.True(new ServiceSocket(manager.Address, null).Tell("READY=1\nSTATUS=Watching"));
        Assert.Equal("READY=1\nSTATUS=Watching", await manager.HearAsync());
    }

    [Fact]
    public void A_manager_that_has_gone_harms_nothing() => Assert.False(new ServiceSocket("/nowhere/at/all", null).Tell("READY=1"));
}
