using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Kernel;

/// <summary>How a file of the kernel is read.</summary>
/// <param name="Path">Its path, in which <c>*</c> stands for a part of a folder's name.</param>
/// <param name="Channel">What its name says.</param>
/// <param name="Scale">Factor after the kernel's own rules.</param>
/// <param name="Offset">What is added after it.</param>
/// <param name="Oldest">Oldest value that is believed; null for the kernel's own files, which have no time.</param>
internal sealed record KernelFileSettings(string Path, KernelChannel Channel, double Scale, double Offset, TimeSpan? Oldest);

/// <summary>One value that Linux measures.</summary>
internal sealed class KernelFileProbe(ProbeDefinition definition, BlockingBus<KernelFiles> bus, KernelFileSettings settings) : IProbe
{
    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        try
        {
            return await bus.RunAsync(Read, cancel);
        }
        catch (FormatException e)
        {
            return Sample.Fault($"the file {settings.Path} holds '{e.Message}'; wanted a number");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Sample.Fault($"the kernel gives no value in {settings.Path} ({e.Message.TrimEnd('.')}); check the chip's supply and wires");
        }
    }

    private Sample Read(KernelFiles files)
    {
        if (KernelFiles.Find(settings.Path, out var fault) is not { } path)
        {
            return Sample.Missing(fault!);
        }

        if (settings.Oldest is { } oldest && files.Age(path) is var age && age > oldest)
        {
            return Sample.Missing($"the file {settings.Path} was written {DisplayUnits.Duration(age)} ago; wanted {DisplayUnits.Duration(oldest)} at most");
        }

        if (settings.Channel.Rules == KernelRules.Hwmon && files.Number(FaultFile(path)) > 0)
        {
            return Sample.Fault($"the kernel marks {settings.Path} as faulty: the sensor is open or shorted");
        }

        return files.Number(path) is { } number
            ? Sample.Good(Scaled(files, path, number) * settings.Channel.Factor * settings.Scale + settings.Offset)
            : Sample.Missing($"the file {settings.Path} has just gone");
    }

    private double Scaled(KernelFiles files, string path, double number) => settings.Channel.IsRaw
        ? (number + (Beside(files, path, "offset") ?? 0)) * (Beside(files, path, "scale") ?? 1)
        : number;

    private static double? Beside(KernelFiles files, string path, string what) =>
        KernelChannel.Beside(path, what).Select(files.Number).FirstOrDefault(number => number is not null);

    private static string FaultFile(string path) => path[..path.LastIndexOf('_')] + "_fault";
}
