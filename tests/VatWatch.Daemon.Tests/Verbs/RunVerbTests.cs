using VatWatch.Daemon.Verbs;

namespace VatWatch.Daemon.Tests.Verbs;

public sealed class RunVerbTests
{
    [Theory]
    [InlineData("/var/lib/vatwatch", true, true)]
    [InlineData("/var/lib/vatwatch/practice", true, true)]
    [InlineData("/var/lib/vatwatch-two", true, false)]
    [InlineData("data", true, false)]
    [InlineData("/var/lib/vatwatch", false, false)]
    public void Root_does_not_run_the_watch_in_the_folder_of_the_packages_user(string folder, bool isRoot, bool refused) =>
        Assert.Equal(refused, RunVerb.MustNotBeRoot(folder, isRoot));
}
