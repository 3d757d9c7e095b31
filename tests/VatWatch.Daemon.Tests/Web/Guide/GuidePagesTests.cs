using VatWatch.Testing;
using VatWatch.Daemon.Web.Guide;

namespace VatWatch.Daemon.Tests.Web.Guide;

public sealed class GuidePagesTests
{
    [Fact]
    public void Every_page_of_the_guide_is_in_the_program()
    {
        var written = Directory.GetFiles(SourceTree.At("config/guide"), "*.md").Select(Path.GetFileNameWithoutExtension);
        Assert.Empty(written.Except(GuidePages.All.Select(page => page.Name)));
        Assert.All(GuidePages.All, page => Assert.DoesNotContain('#', page.Title));
    }

    [Fact]
    public void A_link_to_another_page_of_the_guide_leads_there_and_any_other_is_words() => Assert.Equal(
        "<p><a href=\"/guide/troubles#x\">here</a>, <em>there</em>, <a href=\"https://studio.example\">out</a></p>\n",
        GuidePages.Render("[here](troubles.md#x), [there](../asyncapi.yaml), [out](https://studio.example)"));

    [Fact]
    public void Markup_in_a_page_is_shown_as_text() => Assert.DoesNotContain("<script", GuidePages.Render("<script>alert(1)</script>"), StringComparison.Ordinal);

    [Fact]
    public void The_readme_is_short_enough_to_be_read() => Assert.InRange(File.ReadLines(SourceTree.At("README.md")).Count(), 20, 160);
}
