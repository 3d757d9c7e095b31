using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Vats.Configuration;

public sealed class AuthorityFileTests
{
    [Theory]
    [InlineData("/dev/zero", "file /dev/zero is empty, or a pipe or a device; wanted a file on a disk")]
    [InlineData("/nowhere/ca.pem", "there is no file /nowhere/ca.pem")]
    public void What_is_no_file_on_a_disk_is_not_read(string file, string told)
    {
        Assert.Null(AuthorityFile.TryRead(file, out var fault));
        Assert.Equal(told, fault);
    }

    [Fact]
    public void Authorities_are_read_and_other_text_is_told()
    {
        using var certificates = new StudioCertificates();
        Assert.Single(AuthorityFile.TryRead(certificates.Authority, out var fault)!);
        Assert.Equal("", fault);

        var other = Path.GetTempFileName();
        File.WriteAllText(other, "-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n");
        Assert.Null(AuthorityFile.TryRead(other, out fault));
        Assert.Equal($"file {other} holds no certificate; wanted certificates in PEM", fault);
        File.Delete(other);
    }
}
