using System.Diagnostics;
using VatWatch.Pipeline.Assembly;
using VatWatch.Probes;

namespace VatWatch.Daemon.Verbs.Read;

/// <summary>Shows the bytes that go over the bus of one probe while it is read. Thread safe.</summary>
internal sealed class ProbeTalk
{
    private readonly ProbeDefinition _probe;
    private readonly TextWriter _output;
    private readonly Lock _lock = new();
    private readonly long _start = Stopwatch.GetTimestamp();
    private bool _isAsked;

    private ProbeTalk(ProbeDefinition probe, TextWriter output) => (_probe, _output) = (probe, output);

    /// <summary>Listens to the bus of <paramref name="probe"/>, or says that nobody can.</summary>
    public static ProbeTalk Over(IEnumerable<BusWithProbes> buses, ProbeDefinition probe, TextWriter output)
    {
        var talk = new ProbeTalk(probe, output);
        if (buses.Single(one => one.Bus.Id == probe.Bus).Bus is IOverheardBus bus)
        {
            bus.Overhear = talk.Show;
        }
        else
        {
            output.WriteLine($"The bytes of bus '{probe.Bus}' cannot be shown; wanted a serial port or a Modbus network.");
        }

        return talk;
    }

    /// <summary>A probe is about to be read: what follows on the bus is its talk.</summary>
    public void Asking(ProbeDefinition probe)
    {
        if (probe.Bus == _probe.Bus)
        {
            lock (_lock)
            {
                _isAsked = probe.Id == _probe.Id;
            }
        }
    }

    private void Show(OverheardBytes bytes)
    {
        lock (_lock)
        {
            if (_isAsked)
            {
                _output.WriteLine($"{Stopwatch.GetElapsedTime(_start).TotalSeconds,8:0.000} s  {(bytes.Sent ? "sent" : "came")}  {bytes}");
            }
        }
    }
}
