using System.Text;

namespace VatWatch.SystemTests.Security;

/// <summary>That the search finds what it looks for.</summary>
public sealed class WrittenSecretsTests
{
    [Theory]
    [InlineData("{0}")]
    [InlineData("log line: password={0}; next")]
    public void A_planted_secret_is_found_in_every_form(string around)
    {
        var secrets = new WrittenSecrets();
        var secret = secrets.Plant("control");
        Assert.NotEmpty(secrets.In(string.Format(System.Globalization.CultureInfo.InvariantCulture, around, secret)));
        foreach (var before in (string[])["", "u", "user:", "watch:"])
        {
            var pair = Encoding.UTF8.GetBytes(before + secret + "tail");
            Assert.NotEmpty(secrets.In(Convert.ToBase64String(pair)));
            Assert.NotEmpty(secrets.In(Convert.ToBase64String(pair).Replace('+', '-').Replace('/', '_')));
            Assert.NotEmpty(secrets.In(Convert.ToHexString(pair)));
            Assert.NotEmpty(secrets.In(Convert.ToHexStringLower(pair)));
            Assert.NotEmpty(secrets.In(Encoding.Unicode.GetBytes(before + secret)));
        }

        Assert.NotEmpty(secrets.In($"/login?password={Uri.EscapeDataString(secret)}"));
        Assert.Empty(secrets.In("nothing of the kind"));
    }
}
