using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.OneWire;

/// <summary>Reads thermometers out of the kernel's folder. Nothing stays open between reads. Used on one thread.</summary>
internal sealed class OneWireFolder : IDisposable
{
    /// <summary>The kernel's text has 75 characters; more is no such file.</summary>
    private const int LongestText = 512;

    private readonly string _root;
    private readonly TransferWatch _watch;

    public OneWireFolder(string root, TransferWatch watch)
    {
        _root = root;
        _watch = watch;
        ThrowIfGone();
    }

    /// <summary>The content of the thermometer's file; null when there is none.</summary>
    public string? Read(string device) => Read(device, "w1_slave");

    /// <summary>Whether the thermometer says that it has a supply wire of its own; null when the kernel does not tell.</summary>
    /// <remarks>Kernel documentation of w1_therm: <c>ext_power</c> is 1 with a supply, 0 with parasite power, negative after an error.</remarks>
    public bool? HasSupply(string device)
    {
        try
        {
            return Read(device, "ext_power")?.Trim() switch
            {
                "1" => true,
                "0" => false,
                _ => null,
            };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private string? Read(string device, string file)
    {
        try
        {
            string? text = null;
            _watch.Run((_, _) => text = Content(Path.Combine(_root, device, file)), [], []);
            return text;
        }
        catch (Exception e) when (e is DirectoryNotFoundException or FileNotFoundException)
        {
            ThrowIfGone();
            return null;
        }
    }

    public void Dispose()
    {
    }

    private static string Content(string path)
    {
        using var reader = new StreamReader(path);
        var buffer = new char[LongestText];
        return new string(buffer, 0, reader.ReadBlock(buffer));
    }

    private void ThrowIfGone()
    {
        if (!Directory.Exists(_root))
        {
            throw new BusLostException($"there is no folder {_root}; wanted the kernel's 1-wire devices: switch the interface on");
        }
    }
}
