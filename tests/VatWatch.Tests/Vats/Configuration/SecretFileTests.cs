using System.Diagnostics;
using System.Runtime.Versioning;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Vats.Configuration;

[UnsupportedOSPlatform("windows")]
public sealed class SecretFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-").FullName;

    private string Secret => Path.Combine(_folder, "password");

    [Fact]
    public void The_first_line_of_a_private_file_is_the_secret()
    {
        Write(Secret, "right-horse\r\nsomething else\n");
        Assert.Equal("right-horse", SecretFile.TryRead(Secret, out var fault));
        Assert.Equal("", fault);
        File.CreateSymbolicLink(Secret + "-link", Secret);
        Assert.Equal("right-horse", SecretFile.TryRead(Secret + "-link", out _));
    }

    [Theory]
    [InlineData("\n", "the first line of {0} is empty; wanted the password")]
    [InlineData("a\n", "the first line of {0} is one character, which anybody guesses; wanted the password")]
    [InlineData("", "file {0} is empty, or a pipe or a device; wanted a file on a disk")]
    public void What_is_no_secret_is_told(string text, string words)
    {
        Write(Secret, text);
        Assert.Null(SecretFile.TryRead(Secret, out var fault));
        Assert.Equal(string.Format(System.Globalization.CultureInfo.InvariantCulture, words, Secret), fault);
    }

    [Fact]
    [Trait("Starts", "processes")]
    public void A_device_or_a_pipe_is_refused_at_once_and_a_large_file_unread()
    {
        var watch = Stopwatch.StartNew();
        Assert.Null(SecretFile.TryRead("/dev/zero", out var device));
        Assert.Equal("file /dev/zero is empty, or a pipe or a device; wanted a file on a disk", device);

        using (var made = Process.Start("mkfifo", [Secret]))
        {
            made.WaitForExit();
        }

        Assert.Null(SecretFile.TryRead(Secret, out var pipe));
        Assert.Contains("is empty, or a pipe", pipe, StringComparison.Ordinal);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 10);

        Write(Secret + "-large", new string('x', 70_000));
        Assert.Null(SecretFile.TryRead(Secret + "-large", out var large));
        Assert.EndsWith("is larger than 64 KiB; wanted a file that holds only the secret", large, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_others_may_read_is_refused_with_its_mode()
    {
        Write(Secret, "right-horse\n");
        File.SetUnixFileMode(Secret, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.OtherRead);
        File.SetUnixFileMode(_folder, (UnixFileMode)0b111_101_101);
        Assert.Null(SecretFile.TryRead(Secret, out var fault));
        Assert.Equal($"file {Secret} may be read by every user of this computer (mode 0644); wanted mode 0600 or 0640, as by 'chmod o-rwx {Secret}'", fault);
    }

    [Fact]
    public void A_folder_that_others_do_not_get_into_keeps_what_is_in_it()
    {
        File.WriteAllText(Secret, "right-horse\n");
        Assert.Equal("right-horse", SecretFile.TryRead(Secret, out _));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>Writes a file of mode 0600.</summary>
    private static void Write(string path, string text)
    {
        File.WriteAllText(path, text);
        File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
    }
}
