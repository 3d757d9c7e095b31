using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Tests.Web.Pages;

public sealed class LocalPathTests
{
    [Theory]
    [InlineData("/", "/")]
    [InlineData("/vats/madder-lane?hours=8", "/vats/madder-lane?hours=8")]
    [InlineData(null, "/")]
    [InlineData("", "/")]
    [InlineData("vats", "/")]
    [InlineData("//evil.example", "/")]
    [InlineData("/\\evil.example", "/")]
    [InlineData("/\t/evil.example", "/")]
    [InlineData("/a\r\nSet-Cookie: x", "/")]
    [InlineData("https://evil.example/", "/")]
    public void Only_paths_of_this_site_are_followed(string? wanted, string expected) => Assert.Equal(expected, LocalPath.Of(wanted));
}
