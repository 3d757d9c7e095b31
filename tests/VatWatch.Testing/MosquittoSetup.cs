namespace VatWatch.Testing;

/// <summary>What a <see cref="MosquittoBroker"/> is to be like.</summary>
internal sealed record MosquittoSetup
{
    /// <summary>The only user; null lets everybody in.</summary>
    public string? User { get; init; }

    /// <summary>Password of <see cref="User"/>.</summary>
    public string? Password { get; init; }

    /// <summary>Certificates for TLS; null for plain TCP.</summary>
    public StudioCertificates? Certificates { get; init; }

    /// <summary>Keeps sessions and retained messages over a stop.</summary>
    public bool Persistent { get; init; }

    /// <summary>A whole configuration in place of our own, made from the broker's folder and port; the other settings then have no effect.</summary>
    public Func<string, int, Task<string>>? Configuration { get; init; }

    /// <summary>Further lines of its configuration.</summary>
    public IReadOnlyList<string> Lines { get; init; } = [];
}
