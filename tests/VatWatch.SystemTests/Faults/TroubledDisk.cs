using System.Diagnostics;
using System.Globalization;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>
/// A disk of some megabytes under the data folder of one run, and what happens to it. Where the machine lets nobody mount, the limit of the process's own
/// file sizes (or a lock on the database, for a disk that hangs) stands in, and <see cref="Means"/> says so.
/// </summary>
internal sealed class TroubledDisk : IDisposable
{
    private const string Image = "disk.img";

    private readonly string _folder;
    private readonly string? _image;
    private Action _mend = () => { };
    private bool _mounted;

    private TroubledDisk(string folder, string means, string? image = null) => (_folder, Means, _image) = (folder, means, image);

    /// <summary>How the trouble is made.</summary>
    public string Means { get; private set; }

    /// <summary>Makes the trouble for the process that writes to the disk.</summary>
    public required Action<int> Break { get; init; }

    /// <summary>Ends it.</summary>
    public void Mend()
    {
        _mend();
        _mend = () => { };
    }

    /// <summary>A disk that can be filled to its last byte.</summary>
    public static TroubledDisk ThatFills(string folder)
    {
        Directory.CreateDirectory(folder);
        TroubledDisk? disk = null;
        disk = Run("mount", "-t", "tmpfs", "-o", "size=3m", "tmpfs", folder)
            ? new(folder, "a file system of 3 MB") { Break = _ => disk!.Fill(), _mounted = true }
            : new(folder, "a limit of file sizes") { Break = process => disk!.Limit(process, new FileInfo(Path.Combine(folder, "vatwatch.db-wal")).Length) };
        return disk;
    }

    /// <summary>A disk that turns read-only under the program, as a card at its end does. Only <see cref="Remount"/> brings it back.</summary>
    public static TroubledDisk ThatTurnsReadOnly(string folder)
    {
        var image = Make(folder);
        TroubledDisk? disk = null;
        disk = Run("mount", "-o", "loop", image, folder)
            ? new(folder, "an ext4 that aborted", image) { Break = _ => Require("mount", "-o", "remount,abort", folder), _mounted = true }
            : new(folder, "a limit of file sizes") { Break = process => disk!.Limit(process, 0) };
        return disk;
    }

    /// <summary>A disk that answers nothing for a while.</summary>
    public static TroubledDisk ThatHangs(string folder)
    {
        var image = Make(folder);
        TroubledDisk? disk = null;
        disk = Run("mount", "-o", "loop", image, folder)
            ? new(folder, "an ext4 that is frozen", image) { Break = _ => disk!.Freeze(), _mounted = true }
            : new(folder, "a lock on the database") { Break = _ => disk!.Lock() };
        return disk;
    }

    /// <summary>A database that another program holds.</summary>
    public static TroubledDisk ThatIsLocked(string folder)
    {
        TroubledDisk? disk = null;
        return disk = new(folder, "BEGIN EXCLUSIVE of another program") { Break = _ => disk!.Lock() };
    }

    /// <summary>Takes it out and puts it in again, as after a start of the machine.</summary>
    public void Remount()
    {
        if (_image is not null && _mounted)
        {
            Require("umount", "-l", _folder);
            Require("mount", "-o", "loop", _image, _folder);
        }
    }

    public void Dispose()
    {
        Mend();
        if (_mounted)
        {
            Run("umount", "-l", _folder);
        }
    }

    private static string Make(string folder)
    {
        Directory.CreateDirectory(folder);
        var image = Path.Combine(Path.GetDirectoryName(folder)!, Image);
        using (var file = File.Create(image))
        {
            file.SetLength(24 * 1024 * 1024);
        }

        _ = Run("mkfs.ext4", "-q", "-F", image);
        return image;
    }

    private void Fill()
    {
        var file = Path.Combine(_folder, "ballast");
        using var ballast = new FileStream(file, FileMode.Create, FileAccess.Write, FileShare.None, 1);
        try
        {
            for (var block = new byte[4096]; ;)
            {
                ballast.Write(block);
            }
        }
        catch (IOException)
        {
            // Full: that was the aim.
        }

        _mend = () => File.Delete(file);
    }

    private void Freeze()
    {
        Require("fsfreeze", "-f", _folder);
        _mend = () => Run("fsfreeze", "-u", _folder);
    }

    private void Limit(int process, long bytes)
    {
        var pid = process.ToString(CultureInfo.InvariantCulture);
        Require("prlimit", "--pid", pid, string.Create(CultureInfo.InvariantCulture, $"--fsize={bytes}:unlimited"));
        _mend = () => Run("prlimit", "--pid", pid, "--fsize=unlimited");
    }

    private void Lock()
    {
        const string Script = "import sqlite3,sys; c=sqlite3.connect(sys.argv[1], isolation_level=None, timeout=30); c.execute('BEGIN EXCLUSIVE'); print('locked', flush=True); sys.stdin.read()";
        var process = Process.Start(new ProcessStartInfo("/usr/bin/python3", ["-c", Script, Path.Combine(_folder, "vatwatch.db")]) { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        Assert.Equal("locked", process.StandardOutput.ReadLine());
        _mend = () =>
        {
            process.Kill();
            process.WaitForExit();
            process.Dispose();
        };
    }

    private static void Require(string program, params string[] arguments) => Assert.True(Run(program, arguments), $"{program} {string.Join(' ', arguments)}");

    private static bool Run(string program, params string[] arguments)
    {
        try
        {
            return Task.Run(() => ToolRun.RunAsync(program, arguments)).GetAwaiter().GetResult().ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
