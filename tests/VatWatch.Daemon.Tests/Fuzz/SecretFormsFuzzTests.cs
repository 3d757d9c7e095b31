using CsCheck;
using SkiaSharp;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Tests;
using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Security;
using VatWatch.Sessions.Entries;
using VatWatch.Testing.Fuzz;

namespace VatWatch.Daemon.Tests.Fuzz;

/// <summary>Mutated tokens, hashes, addresses, quantities and pictures through what reads them on the web side.</summary>
public sealed class SecretFormsFuzzTests
{
    private const int Few = 4000;
    private static readonly (string Token, ApiToken Line) Press = ApiToken.Make("press", Role.Viewer);

    [Fact]
    public void A_mutated_line_of_a_token_is_refused_or_reads_the_same_again()
    {
        var line = Press.Line.ToString();
        Cases.Hold(Mutants.Of((string[])[line, ApiToken.Make("wall", Role.Operator).Line.ToString()]), Few, text =>
            Assert.True(!ApiToken.TryParse(text, out var read) || (ApiToken.TryParse(read.ToString(), out var again) && again.ToString() == read.ToString())), text => text);
    }

    [Fact]
    public void No_mutant_of_a_token_opens_the_door() => Cases.Hold(
        Mutants.Of((string[])[Press.Token]), Few, text => Assert.Equal(text == Press.Token, Press.Line.Matches(text)), text => text);

    [Fact]
    public void A_mutated_hash_is_refused_or_reads_the_same_again() => Cases.Hold(
        Mutants.Of((string[])[PasswordHash.Of("woad and weld").ToString(), "$pbkdf2-sha512$i=10000$AAAAAAAAAAAAAAAAAAAAAA==$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA="]),
        Few,
        text => Assert.True(!PasswordHash.TryParse(text, out var read) || (PasswordHash.TryParse(read.ToString(), out var again) && again.ToString() == read.ToString())),
        text => text);

    [Fact]
    public void No_mutated_address_leads_away_from_this_site() => Cases.Hold(
        Mutants.Of((string[])["/vats/madder-lane?hours=8", "//evil.example/", "https://evil.example/", "/\\evil.example", "/%0d%0aSet-Cookie: a=b", "/..//evil.example"]),
        Few,
        text =>
        {
            var site = new Uri("http://vats.example/deep/page");
            var path = LocalPath.Of(text);
            Assert.DoesNotContain(path, one => char.IsControl(one) || one is '\\' or '"' or '<' or ' ');
            Assert.Equal(site.Authority, new Uri(site, path).Authority);
        },
        text => text);

    [Fact]
    public void A_mutated_amount_is_finite_or_refused() => Cases.Hold(
        Gen.Select(Mutants.Of((string[])["2 oz", "50 g", "1.5 gal", "2", "1e3", ".5 lb", "2,5 kg"]), Gen.Enum<Material>(), Gen.Bool),
        Few,
        one =>
        {
            var units = one.Item3 ? DisplayUnits.Us : DisplayUnits.Si;
            if (DyersQuantity.TryAmount(one.Item1, one.Item2, units, out var amount))
            {
                Assert.True(double.IsFinite(amount));
            }
        },
        one => one.Item1);

    [Fact]
    public void Mutated_pictures_are_drawn_or_refused_with_a_sentence() => Cases.Hold(
        Mutants.Of((byte[][])[Pictures.HeldUpright(Pictures.Of(40, 30, SKEncodedImageFormat.Jpeg)), Pictures.Of(40, 30, SKEncodedImageFormat.Png), Pictures.Of(40, 30, SKEncodedImageFormat.Webp), [.. "<svg onload='x'/>"u8], [.. "GIF89a"u8]]),
        Few,
        bytes =>
        {
            if (UprightJpeg.TryMake(new MemoryStream(bytes), 100, out var picture, out var whyNot))
            {
                Assert.True(picture.Bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]));
            }
            else
            {
                Assert.Contains("wanted", whyNot, StringComparison.Ordinal);
            }
        },
        Cases.Show);
}
