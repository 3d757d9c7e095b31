using System.Net.Sockets;
using System.Net;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.DependencyInjection.Extensions;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Web.Alarms.Acts;
using VatWatch.Daemon.Web.Alarms.History;
using VatWatch.Daemon.Web.Alarms;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Assets;
using VatWatch.Daemon.Web.Bedside;
using VatWatch.Daemon.Web.Bench;
using VatWatch.Daemon.Web.Dosing;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Daemon.Web.Guide;
using VatWatch.Daemon.Web.Health;
using VatWatch.Daemon.Web.Ledger;
using VatWatch.Daemon.Web.LogBook.History;
using VatWatch.Daemon.Web.LogBook.Photos;
using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Plans;
using VatWatch.Daemon.Web.Security;
using VatWatch.Daemon.Web.Settings;

namespace VatWatch.Daemon.Web;

/// <summary>
/// Puts pages, interface and health into a web application. Wants from the container: the live feed, the alarm service, the session service, the store, <see cref="CalibrationRules"/>,
/// <see cref="IAlarmHistory"/>, <see cref="IReadiness"/>; takes any number of <see cref="IMetricSource"/>.
/// </summary>
internal static class VatWatchWeb
{
    /// <summary>Registers services and the listener.</summary>
    /// <param name="builder">Made by <see cref="WebApplication.CreateSlimBuilder()"/>.</param>
    /// <param name="options">Where and to whom.</param>
    /// <param name="site">The place.</param>
    /// <param name="keyFolder">Folder for the keys behind cookies and form tokens, so that they outlive a restart; made when missing.</param>
    /// <param name="local">Bound socket for the programs of this computer (<see cref="LocalSocket"/>); null for none.</param>
    public static void AddTo(WebApplicationBuilder builder, WebOptions options, SiteFacts site, string keyFolder, Socket? local = null)
    {
        Listen(builder, options);
        if (local is not null)
        {
            ListenLocally(builder, local);
        }

        var services = builder.Services;
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton(SettingsFacts.None);
        services.AddSingleton(provider => new EndedSessions(
            options.Passwords is null ? null : Path.Combine(keyFolder, "ended-sessions"), provider.GetRequiredService<TimeProvider>(), provider.GetRequiredService<ILogger<EndedSessions>>()));
        services.AddSingleton(options).AddSingleton(site).AddSingleton<IConnectionListenerFactory, PageListening>();
        services.TryAddSingleton<PageTrouble>();
        services.AddSingleton<IComponentActivator, PlainActivator>().AddSingleton<PageMaker>().AddSingleton<AssetFiles>().AddSingleton<ErrorReplies>();
        services.AddSingleton<KnownAddresses>().AddSingleton<ConnectionPlaces>().AddSingleton<PasswordGate>().AddSingleton<LoginThrottle>().AddSingleton<EventStream>().AddSingleton<ChartApi>().AddSingleton<ContactTestPace>();
        services.AddSingleton<StoreQueries>().AddSingleton<FormGate>().AddSingleton<DoubleTaps>().AddSingleton<LogBookForms>().AddSingleton<PlanForms>().AddSingleton<PictureUpload>().AddSingleton<DrawingPen>().AddSingleton<DrawnFiles>();
        services.AddSingleton<ElectrodeFollower>().AddSingleton<CalibrationBench>().AddSingleton<BenchForms>();
        services.AddSingleton<IMetricSource, VatMetrics>().AddSingleton<IMetricSource, ProcessMetrics>();
        services.AddSingleton<OpenApiPage>().ConfigureHttpJsonOptions(OpenApiPage.UseOurShapes);
        services.AddAntiforgery(forgery =>
        {
            forgery.Cookie.Name = "vatwatch.form";
            forgery.Cookie.SameSite = SameSiteMode.Strict;
            forgery.Cookie.SecurePolicy = options.Certificate is null ? CookieSecurePolicy.SameAsRequest : CookieSecurePolicy.Always;
        });
        if (options.Passwords is not null)
        {
            services.AddAuthentication().AddCookie(PasswordGate.Scheme);
            services.AddOptions<Microsoft.AspNetCore.Authentication.Cookies.CookieAuthenticationOptions>(PasswordGate.Scheme).Configure<PasswordGate>((cookie, gate) => gate.Configure(cookie));
        }

        AddKeys(builder, keyFolder);

        // Another site's page may point its own name at this address (DNS rebinding); only the names a person would type are answered.
        services.AddHostFiltering(filter => filter.AllowedHosts = options.IsGuarded ? ["*"] : ["localhost", "127.0.0.1", "[::1]", options.Listen.Address.ToString()]);
    }

    /// <summary>Puts the middleware and the routes in.</summary>
    public static void Map(WebApplication app)
    {
        var options = app.Services.GetRequiredService<WebOptions>();
        if (!options.IsLoopback && options.Certificate is null)
        {
            Log.Unencrypted(app.Logger, options.Url);
        }

        if (options.Proxy is { } proxy)
        {
            app.UseForwardedHeaders(Forwarded(proxy));
        }

        app.Use(SecurityHeaders.SetAsync);
        app.UseHostFiltering();
        app.Use(app.Services.GetRequiredService<ErrorReplies>().GuardAsync);
        app.Use(app.Services.GetRequiredService<PasswordGate>().CheckAsync);
        AssetFiles.Map(app);
        PageEndpoints.Map(app);
        AlarmForms.Map(app);
        AlarmPageEndpoint.Map(app);
        LoginForm.Map(app);
        ChartEndpoint.Map(app);
        LogBookForms.Map(app);
        SessionPages.Map(app);
        PhotoEndpoint.Map(app);
        ReportEndpoint.Map(app);
        ComparePages.Map(app);
        LifePages.Map(app);
        LedgerPages.Map(app);
        DosingPages.Map(app);
        PlanPages.Map(app);
        PlanForms.Map(app);
        BenchForms.Map(app);
        GuidePages.Map(app);
        BedsidePages.Map(app);
        MapInterface(app);
    }

    /// <summary>Puts in the routes that programs use, which the interface's description lists.</summary>
    public static void MapInterface(IEndpointRouteBuilder routes)
    {
        ApiEndpoints.Map(routes);
        HeatingApi.Map(routes);
        SessionEndpoints.Map(routes);
        HealthEndpoints.Map(routes);
    }

    private static void AddKeys(WebApplicationBuilder builder, string keyFolder)
    {
        builder.Services.AddDataProtection().SetApplicationName("vatwatch");
        builder.Services.AddOptions<KeyManagementOptions>().Configure<ILoggerFactory>((options, logs) => options.XmlRepository = new KeyFolder(keyFolder, logs));
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);

        // The framework reads the keys at the start already, which brings cryptography and XML into memory (8 MB measured) of a daemon whose
        // pages nobody may open all night. Without this they are read when the first page is made. Form tokens and cookies add keys too, so this comes last.
        foreach (var eager in builder.Services.Where(one => one.ImplementationType?.Name == "DataProtectionHostedService").ToList())
        {
            builder.Services.Remove(eager);
        }
    }

    private static void Listen(WebApplicationBuilder builder, WebOptions options)
    {
        if (options.Certificate is not null)
        {
            builder.WebHost.UseKestrelHttpsConfiguration();
        }

        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 64 * 1024;
            kestrel.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
            kestrel.Limits.RequestHeadersTimeout = options.IdleConnection;
            kestrel.Limits.KeepAliveTimeout = options.IdleConnection;

            // The largest body but a picture's is then here within 21 s. A phone in the far corner of a studio is ten times as fast.
            kestrel.Limits.MinRequestBodyDataRate = new(bytesPerSecond: 4096, gracePeriod: options.SlowBody);
            if (options.Listen.Address.Equals(IPAddress.IPv6Any))
            {
                // Falls back to IPv4 where a computer has no IPv6.
                kestrel.ListenAnyIP(options.Listen.Port, listen => Protect(listen, options));
            }
            else
            {
                kestrel.Listen(options.Listen, listen => Protect(listen, options));
            }
        });
    }

    private static void ListenLocally(WebApplicationBuilder builder, Socket local)
    {
        builder.WebHost.UseSockets(sockets => sockets.CreateBoundListenSocket =
            address => address is UnixDomainSocketEndPoint ? local : SocketTransportOptions.CreateDefaultBoundListenSocket(address));
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.ListenUnixSocket(local.LocalEndPoint!.ToString()!, listen => listen.Protocols = HttpProtocols.Http1));
    }

    /// <summary>Only what the named proxy itself adds is believed: the last address of the list, never one that a client wrote before it.</summary>
    private static ForwardedHeadersOptions Forwarded(IPAddress proxy)
    {
        var forwarded = new ForwardedHeadersOptions { ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto, ForwardLimit = 1 };
        forwarded.KnownIPNetworks.Clear();
        forwarded.KnownProxies.Clear();
        forwarded.KnownProxies.Add(proxy);
        return forwarded;
    }

    private static void Protect(ListenOptions listen, WebOptions options)
    {
        listen.Use(listen.ApplicationServices.GetRequiredService<ConnectionPlaces>().Guard);
        if (options.Certificate is { } certificate)
        {
            listen.UseHttps(https =>
            {
                https.ServerCertificate = certificate;
                https.ServerCertificateChain = options.CertificateChain;
                https.HandshakeTimeout = TimeSpan.FromSeconds(10);
            });
        }
        else
        {
            listen.Protocols = HttpProtocols.Http1;
        }
    }
}

/// <summary>What every page says about the place it watches.</summary>
/// <param name="Site">Name of the site as configured.</param>
/// <param name="SimulatedVats">Vats with at least one probe on a simulated bus: the pages say plainly that they are not real.</param>
/// <param name="SimulationSpeed">How many times as fast as the wall clock the simulation runs; 1 when it does not.</param>
public sealed record SiteFacts(string Site, DisplayUnits Units, IReadOnlySet<VatId> SimulatedVats, double SimulationSpeed = 1);
