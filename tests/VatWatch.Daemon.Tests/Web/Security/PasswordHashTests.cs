using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class PasswordHashTests
{
    [Fact]
    public void The_right_password_matches_after_a_round_trip_through_the_file()
    {
        Assert.True(PasswordHash.TryParse($"  {PasswordHash.Of("woad and weld")}\r\n", out var hash));

        Assert.True(hash.Matches("woad and weld"));
        Assert.False(hash.Matches("woad and weld "));
        Assert.False(hash.Matches(""));
        Assert.False(hash.Matches(new string('a', 10_000)));
    }

    [Fact]
    public void A_new_hash_has_all_its_rounds() => Assert.StartsWith("$pbkdf2-sha512$i=210000$", PasswordHash.Of("woad and weld").ToString(), StringComparison.Ordinal);

    [Fact]
    public void Two_hashes_of_one_password_differ() => Assert.NotEqual(PasswordHash.Of("woad and weld").ToString(), PasswordHash.Of("woad and weld").ToString());

    // Worked out with Python 3: hashlib.pbkdf2_hmac("sha512", b"woad and weld", bytes(range(16)), 10000, 32).
    [Fact]
    public void It_is_PBKDF2_with_HMAC_SHA_512_as_another_implementation_makes_it()
    {
        Assert.True(PasswordHash.TryParse("$pbkdf2-sha512$i=10000$AAECAwQFBgcICQoLDA0ODw==$wmIx5gDEsdxfRrTk2nrC0z52QpWFLZRMFDWj7PZRzRg=", out var hash));
        Assert.True(hash.Matches("woad and weld"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("woad and weld")]
    [InlineData("$pbkdf2-sha512$i=1$AAECAwQFBgcICQoLDA0ODw==$AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=")]
    [InlineData("$pbkdf2-sha512$i=10000$AAEC$AAEC")]
    [InlineData("$pbkdf2-sha512$i=99999999$AAECAwQFBgcICQoLDA0ODw==$AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=")]
    [InlineData("$pbkdf2-sha1$i=10000$AAECAwQFBgcICQoLDA0ODw==$AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=")]
    [InlineData("$$$$")]
    public void Anything_else_is_no_hash(string text) => Assert.False(PasswordHash.TryParse(text, out _));

    [Theory]
    [InlineData(9)]
    [InlineData(201)]
    public void A_password_too_short_or_too_long_is_refused(int length) =>
        Assert.Contains($"{length} characters", Assert.Throws<ArgumentException>(() => PasswordHash.Of(new string('w', length))).Message, StringComparison.Ordinal);
}
