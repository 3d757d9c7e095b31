using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Serial.Ports;

/// <summary>Ports under names that change, with plain files for devices.</summary>
public sealed class LastingNameTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-").FullName;
    private readonly LastingName _names;
    private readonly string _port;
    private readonly string _lasting;

    public LastingNameTests()
    {
        _port = Path.Combine(_folder, "ttyUSB0");
        _lasting = Path.Combine(_folder, "by-id", "usb-meter-if00");
        Directory.CreateDirectory(Path.Combine(_folder, "by-id"));
        _names = new LastingName(Path.Combine(_folder, "by-id"));
        Appear("ttyUSB0");
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public void A_name_that_can_change_is_told_with_the_one_that_stays()
    {
        Assert.Equal($"{_port} is a name that goes by the order in which plugs are found; write \"{_lasting}\", which stays with the instrument", _names.Advice(_port));
        Assert.Null(_names.Advice(_lasting));
        Assert.Null(_names.Advice(Path.Combine(_folder, "ttyUSB7")));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task An_instrument_that_came_back_under_another_name_is_told_and_its_old_name_is_not_opened(bool anotherIsThere)
    {
        var settings = new SerialSettings { Port = _port };
        await using var bus = new SerialBus(new BusId("bench"), settings, TimeProvider.System, _ => new QuietPort(), _names);
        await bus.OpenAsync(Cancel);
        await bus.CloseAsync();
        await bus.OpenAsync(Cancel);
        await bus.CloseAsync();

        File.Delete(_port);
        File.Delete(_lasting);
        Appear("ttyUSB1");
        if (anotherIsThere)
        {
            File.WriteAllText(_port, "");
        }

        var lost = await Assert.ThrowsAsync<BusLostException>(async () => await bus.OpenAsync(Cancel));
        Assert.Equal($"the instrument that was {_port} is {_folder}/ttyUSB1 now; write \"{_lasting}\" as the port, which stays with it", lost.Message);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private void Appear(string name)
    {
        File.WriteAllText(Path.Combine(_folder, name), "");
        File.CreateSymbolicLink(_lasting, Path.Combine(_folder, name));
    }

    private sealed class QuietPort : IPort
    {
        public void Start(IPortSink sink)
        {
        }

        public void Restart(Action whenEmpty) => whenEmpty();

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel) => ValueTask.CompletedTask;

        public void Dispose()
        {
        }
    }
}
