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
    public string? Read(string device)
    {
        try
        {
            string? text = null;
            _watch.Run((_, _) => text = Content(Path.Combine(_root, device, "w1_slave")), [], []);
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
