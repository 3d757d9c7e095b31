using System.Net.Sockets;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Logging;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Figures;
using VatWatch.Alarms;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Daemon.Web.Alarms.History;
using VatWatch.Daemon.Web.Health;
using VatWatch.Daemon.Web.Security;
using VatWatch.Daemon.Web;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Web;

/// <summary>The web side with real Kestrel on a free port, over a still feed.</summary>
internal sealed class RunningPages : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly string _keys = Directory.CreateTempSubdirectory("vatwatch-keys-").FullName;

    private RunningPages(Scenes scenes, WebOptions options, SiteFacts site, TimeProvider time, ContactTable contacts, Socket? local)
    {
        Scenes = scenes;
        LogBook = new((scenes.Feed.Vats ?? []).Select(live => live.Definition.Id).ToHashSet(), scenes.Feed.Tell, scenes.Clock);
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders().AddProvider(Log);
        builder.Services.AddSingleton(time);
        VatWatchWeb.AddTo(builder, options, site, _keys, local);
        builder.Services.AddSingleton<ILiveFeed>(scenes.Feed).AddSingleton(new AlarmService(Desk, time, NullLogger<AlarmService>.Instance)).AddSingleton<IReadiness>(Readiness)
            .AddSingleton<IAlarmHistory>(History);
        builder.Services.AddSingleton(new ContactTest(contacts, MqttOptions.Default, "hill-studio", [], null, TimeProvider.System, NullLogger<ContactTest>.Instance));
        builder.Services.AddSingleton(LogBook.Store).AddSingleton(LogBook.Desk).AddSingleton(LogBook.Plans).AddSingleton(new CalibrationRules([]));
        _app = builder.Build();
        VatWatchWeb.Map(_app);
    }

    public Scenes Scenes { get; }

    public RecordingDesk Desk { get; } = new();

    public LogBookRig LogBook { get; }

    public StillReadiness Readiness { get; } = new();

    public StillHistory History { get; } = new();

    /// <summary>What was logged.</summary>
    public KeptLog Log { get; } = new();

    /// <summary>Why the pages are not served.</summary>
    public PageTrouble Trouble => _app.Services.GetRequiredService<PageTrouble>();

    /// <summary>Slows down guessed passwords.</summary>
    public LoginThrottle Throttle => _app.Services.GetRequiredService<LoginThrottle>();

    /// <summary>Every route there is.</summary>
    public IReadOnlyList<RouteEndpoint> Routes => [.. _app.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()];

    public Uri Address { get; private set; } = new("http://unset");

    public static async Task<RunningPages> StartAsync(Scenes scenes, WebOptions? options = null, SiteFacts? site = null, TimeProvider? time = null, ContactTable? contacts = null, Socket? local = null)
    {
        var pages = new RunningPages(
            scenes, options ?? new() { Listen = new(IPAddress.Loopback, 0) }, site ?? new("hill-studio", DisplayUnits.Us, new HashSet<VatId>()), time ?? TimeProvider.System,
            contacts ?? ContactTable.Usual(DisplayUnits.Us), local);
        await pages._app.StartAsync(TestContext.Current.CancellationToken);
        pages.Address = new(pages._app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single(address => !address.Contains("//unix:", StringComparison.Ordinal)));
        return pages;
    }

    /// <summary>A page over a scene, as it is sent.</summary>
    public static async Task<string> HtmlAsync(Scenes scenes, string path = "/")
    {
        await using var pages = await StartAsync(scenes);
        using var browser = pages.Browser();
        return await browser.GetStringAsync(path, TestContext.Current.CancellationToken);
    }

    /// <summary>A page over a scene, as a reader sees it.</summary>
    public static async Task<string> TextAsync(Scenes scenes, string path = "/") => VatsPageTests.Text(await HtmlAsync(scenes, path));

    /// <summary>A browser without script: keeps cookies, follows no redirect by itself, trusts the test's certificate.</summary>
    public HttpClient Browser() => new(new HttpClientHandler
    {
        AllowAutoRedirect = false,
        ServerCertificateCustomValidationCallback = HttpClientHandler.DangerousAcceptAnyServerCertificateValidator,
    })
    {
        BaseAddress = Address,
    };

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        await LogBook.DisposeAsync();
        Directory.Delete(_keys, true);
    }

    internal sealed class StillReadiness : IReadiness
    {
        public IReadOnlyList<StageReadiness> Stages { get; set; } = [new("store", true, "Writing.")];
    }

    internal sealed class StillHistory : IAlarmHistory
    {
        public List<AlarmChange> Changes { get; } = [];

        public bool Hangs { get; set; }

        public async Task<IReadOnlyList<AlarmChange>> ReadAsync(VatId? vat, DateTimeOffset? before, int count, CancellationToken cancel)
        {
            if (Hangs)
            {
                await Task.Delay(Timeout.Infinite, cancel);
            }

            return [.. Changes.Where(change => (vat is null || change.Status.Vat == vat) && (before is null || change.Stamp.Utc < before)).Take(count)];
        }

        public Task<IReadOnlyList<AlarmWeek>> WeeksAsync(DateTimeOffset now, int count, CancellationToken cancel) => Task.FromResult<IReadOnlyList<AlarmWeek>>(
        [
            .. Enumerable.Range(0, count).Select(back =>
            {
                var (from, to) = (now.AddDays(-7 * (back + 1)), now.AddDays(-7 * back));
                return AlarmFigures.Of([], [.. Changes.Where(change => change.Stamp.Utc >= from && change.Stamp.Utc < to).Reverse()], from, to);
            }),
        ]);
    }
}
