namespace VatWatch.Daemon.Verbs.Init;

/// <summary>What a first configuration is made from; every text is already known to be good.</summary>
internal sealed record InitAnswers
{
    /// <summary>Folder of the store of an installed package; null where none is installed.</summary>
    public string? Data { get; init; }

    /// <summary>"us" or "si".</summary>
    public required string Display { get; init; }

    /// <summary>Name of the place, in topics.</summary>
    public required string Site { get; init; }

    /// <summary>What people call the vat.</summary>
    public required string VatName { get; init; }

    /// <summary>The vat's name in topics.</summary>
    public required string VatId { get; init; }

    /// <summary>With its unit, as written.</summary>
    public required string Volume { get; init; }

    /// <summary>"protein" or "cellulose".</summary>
    public required string Fibre { get; init; }

    /// <summary>Word of the reducing agent.</summary>
    public required string Reducer { get; init; }

    /// <summary>Its probes; at least one.</summary>
    public required IReadOnlyList<ProbeWish> Probes { get; init; }

    /// <summary>A vat to practise on.</summary>
    public static IReadOnlyList<ProbeWish> Practice { get; } =
    [
        new(Vats.Quantity.Temperature, ProbePlace.Simulated, "simulated"),
        new(Vats.Quantity.Ph, ProbePlace.Simulated, "simulated"),
        new(Vats.Quantity.Orp, ProbePlace.Simulated, "simulated"),
    ];

    /// <summary>Whether nothing of it is real.</summary>
    public bool IsPractice => Probes.All(probe => probe.Place == ProbePlace.Simulated);
}
