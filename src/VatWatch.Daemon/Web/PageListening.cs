using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.Options;
using VatWatch.Alarms.Daemon;

namespace VatWatch.Daemon.Web;

/// <summary>
/// Listens for the web server. An address that another program has, or that this computer is only given once its network is up, is tried again for as long as
/// the daemon runs: the watch does not depend on its pages. Thread safe.
/// </summary>
internal sealed class PageListening(
    WebOptions options, PageTrouble pages, IOptions<SocketTransportOptions> sockets, TimeProvider time, ILoggerFactory logs) : IConnectionListenerFactory, IConnectionListenerFactorySelector
{
    /// <summary>From one try to the next.</summary>
    public static readonly TimeSpan Again = TimeSpan.FromSeconds(5);

    private readonly SocketTransportFactory _sockets = new(sockets, logs);
    private readonly ILogger _log = logs.CreateLogger<PageListening>();

    private PageTrouble Pages => pages;

    private TimeProvider Time => time;

    private string Url => options.Url;

    public bool CanBind(EndPoint endpoint) => _sockets.CanBind(endpoint);

    public async ValueTask<IConnectionListener> BindAsync(EndPoint endpoint, CancellationToken cancel)
    {
        try
        {
            return await _sockets.BindAsync(endpoint, cancel);
        }
        catch (Exception wrong) when (endpoint is IPEndPoint && Sentence(wrong) is { } sentence)
        {
            pages.Sentence = sentence;
            Log.PagesNotServed(_log, sentence);
            return new LateListener(this, endpoint);
        }
    }

    /// <summary>Why an address cannot be listened on and what to do; null for what no waiting mends.</summary>
    private string? Sentence(Exception wrong)
    {
        var why = ((wrong as SocketException) ?? (wrong.InnerException as SocketException))?.SocketErrorCode switch
        {
            SocketError.AddressAlreadyInUse => "another program listens there already; stop it or set web.listen to another port",
            SocketError.AccessDenied => "the system does not allow it; ports below 1024 need a privilege, so set web.listen to a higher one",
            SocketError.AddressNotAvailable => "this computer has no such address; set web.listen to one of its own",
            _ => null,
        };
        return why is null ? null : $"Cannot serve the pages at {options.Url}: {why}.";
    }

    /// <summary>Stands for an address until it can be listened on.</summary>
    private sealed class LateListener(PageListening owner, EndPoint endpoint) : IConnectionListener
    {
        private readonly CancellationTokenSource _ended = new();
        private IConnectionListener? _listener;

        public EndPoint EndPoint => endpoint;

        public async ValueTask<ConnectionContext?> AcceptAsync(CancellationToken cancel)
        {
            while (_listener is null && !_ended.IsCancellationRequested)
            {
                using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, _ended.Token);
                await Task.Delay(Again, owner.Time, either.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                cancel.ThrowIfCancellationRequested();
                await TryAsync();
            }

            return _listener is null ? null : await _listener.AcceptAsync(cancel);
        }

        public ValueTask UnbindAsync(CancellationToken cancel)
        {
            _ended.Cancel();
            return _listener?.UnbindAsync(cancel) ?? ValueTask.CompletedTask;
        }

        public async ValueTask DisposeAsync()
        {
            await _ended.CancelAsync();
            if (_listener is not null)
            {
                await _listener.DisposeAsync();
            }
        }

        private async Task TryAsync()
        {
            try
            {
                _listener = _ended.IsCancellationRequested ? null : await owner._sockets.BindAsync(endpoint, CancellationToken.None);
            }
            catch (Exception wrong) when (owner.Sentence(wrong) is { } sentence)
            {
                owner.Pages.Sentence = sentence;
                return;
            }

            if (_listener is not null)
            {
                owner.Pages.Sentence = null;
                Log.PagesServed(owner._log, owner.Url);
            }
        }
    }
}

/// <summary>Why the pages are not served just now. Thread safe.</summary>
internal sealed class PageTrouble
{
    private volatile string? _sentence;

    /// <summary>What is wrong and what to do; null while the pages are served.</summary>
    public string? Sentence
    {
        get => _sentence;
        set => _sentence = value;
    }

    public DaemonSignal Signal() => PagesLostAlarm.Signal(_sentence);
}
