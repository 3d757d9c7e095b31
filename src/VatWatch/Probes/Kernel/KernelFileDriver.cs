using VatWatch.Probes.Blocking;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Kernel;

/// <summary>
/// The driver <c>kernel-file</c>, on a bus of kind <c>kernel</c>: a value that a driver of Linux shows in a file (industrial I/O,
/// hardware monitoring), or a number that another program writes into one.
/// </summary>
/// <remarks>
/// <para><c>file</c>: its path; <c>*</c> stands for a part of a folder's name, such as
/// <c>/sys/bus/i2c/devices/1-0060/iio:device*/in_temp_raw</c>. The kernel's own scale and offset beside a raw file are taken in.</para>
/// <para><c>unit</c>: needed where the name does not tell; else °C for <c>temp</c>, mV for <c>voltage</c> and <c>in</c>, W for
/// <c>power</c>, pH for <c>ph</c>.</para>
/// <para><c>scale</c>, <c>offset</c>: value = kernel's value × scale + offset (default 1 and 0), for a divider or an amplifier before the chip.</para>
/// <para><c>age</c>: for a file that a program writes, by the time of the file: oldest that is believed, 1 s to 1 h (default 1 min).</para>
/// </remarks>
public sealed class KernelFileDriver : IProbeDriver
{
    private const string FileWanted = "the path of a file, such as \"/sys/bus/i2c/devices/1-0060/iio:device*/in_temp_raw\"";

    public string Word => "kernel-file";

    public string BusKind => KernelBusKind.Name;

    public string? Notes => "kernel-values";

    public BenchAdvice Advice { get; } = new(
        "Does 'cat' show a number in the file? Is the chip's overlay or driver loaded ('dmesg'), and may this user read the file?",
        "Compare 'cat' of the file and of those named scale and offset beside it with the value shown.");

    public FirstSettings Begin(Quantity measures, string place) => KernelChannel.Of(place).Unit is not null
        ? new($$"""{ "file": "{{place}}" }""", "Write * for numbers that the kernel gives anew at each start.")
        : new($$"""{ "file": "{{place}}", "unit": "{{measures.Unit()}}" }""", "A file with one number, written by another program.");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        var path = settings.Text("file", FileWanted);
        if (path.Length > 0 && !path.StartsWith('/'))
        {
            settings.Faults.Add(settings.PathOf("file"), ConfigNode.Quote(path), FileWanted);
        }

        var channel = KernelChannel.Of(path);
        var unit = ReadUnit(settings, measures, channel);
        var scale = TextLineDriver.ReadScale(settings);
        var offset = settings.Number("offset", -TextLineDriver.MostOffset, TextLineDriver.MostOffset, 0);
        var file = new KernelFileSettings(path, channel, scale, offset, ReadAge(settings, channel));
        return new(unit, (bus, _, probe, _) => new KernelFileProbe(probe, (BlockingBus<KernelFiles>)bus, file));
    }

    /// <summary>What the name tells, unless the settings say otherwise: a bare electrode behind a converter, a divider.</summary>
    private static SampleUnit ReadUnit(ConfigNode settings, Quantity measures, KernelChannel channel)
    {
        if (settings.Has("unit") || channel.Unit is null)
        {
            return TextLineDriver.ReadUnit(settings, measures);
        }

        if (SampleUnit.TryParse(channel.Unit, measures, out var told))
        {
            return told;
        }

        settings.Faults.Add(settings.PathOf("file"), $"a file in {channel.Unit} for a probe that measures {measures.Word()}", $"another file, or a \"unit\" of {SampleUnit.Wanted(measures)}");
        return SampleUnit.Canonical(measures);
    }

    private static TimeSpan? ReadAge(ConfigNode settings, KernelChannel channel)
    {
        var age = settings.Duration("age", TimeSpan.FromSeconds(1), TimeSpan.FromHours(1), TimeSpan.FromMinutes(1));
        if (channel.Rules == KernelRules.None)
        {
            return age;
        }

        if (settings.Has("age"))
        {
            settings.Faults.Add(settings.PathOf("age"), "set for a file of the kernel", "no such key: such a file is measured when it is read");
        }

        return null;
    }
}
