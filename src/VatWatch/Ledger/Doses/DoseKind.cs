using VatWatch.Science.Carbonate.SodaAsh;
using VatWatch.Science.Dosing;
using VatWatch.Science.Indigo;
using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger.Doses;

/// <summary>What the probes showed before a dose and after it. Immutable.</summary>
/// <param name="TemperatureC">The liquor before, °C.</param>
/// <param name="TemperatureAfterC">After, °C.</param>
/// <param name="Ph">pH before; null when it was not measured.</param>
/// <param name="Orp">ORP before, mV; null when it was not measured.</param>
internal sealed record DoseReadings(double TemperatureC, double TemperatureAfterC, double? Ph, double? PhAfter, double? Orp, double? OrpAfter);

/// <summary>What theory asks for an answer that was read.</summary>
/// <param name="Grams">g.</param>
/// <param name="LogSigma">How far it may be off by the readings, as a logarithm.</param>
internal readonly record struct DoseTheory(double Grams, double LogSigma);

/// <summary>A kind of dose whose effect a vat's own answers teach: soda ash by pH, reducing agent by ORP. Immutable.</summary>
internal abstract record DoseKind
{
    /// <summary>Soda ash, which the pH answers.</summary>
    public static DoseKind SodaAsh { get; } = new SodaAshKind();

    /// <summary>Reducing agent, which the ORP answers.</summary>
    public static DoseKind Reducer { get; } = new ReducerKindOfVat();

    /// <summary>How long it takes to work.</summary>
    public abstract TimeSpan Wait { get; }

    /// <summary>How far one dose goes from the next for reasons that nobody sees: what is weighed, what is stirred in, what the liquor has become. As a logarithm; tuned on made-up vats.</summary>
    public abstract double Scatter { get; }

    /// <summary>What an entry gives of it, g; null for another.</summary>
    public abstract double? Grams(SessionEntry entry);

    /// <summary>How far theory may be off in a vat that has never been seen to answer.</summary>
    public abstract double Untried(VatBalance balance);

    /// <summary>What theory goes by, of the ledger: an unseen part beside it counts the less the more of it there is. 1 where it goes by nothing.</summary>
    public virtual double Known(VatBalance balance) => 1;

    /// <summary>What theory asks for what was read; null where that says nothing.</summary>
    public abstract DoseTheory? Theory(LedgerFacts facts, VatBalance before, DoseReadings read);

    private sealed record SodaAshKind : DoseKind
    {
        /// <summary>A smaller rise is lost in the electrode's noise, pH.</summary>
        private const double LeastRise = 0.08;

        public override TimeSpan Wait => TimeSpan.FromMinutes(DoseWait.ForAlkali.LeastMinutes);

        public override double Scatter => 0.08;

        public override double? Grams(SessionEntry entry) => entry is not { Kind: EntryKind.Added, Amount: { } grams } ? null : entry.Material switch
        {
            Material.SodaAsh => grams * (entry.Strength ?? 1),
            Material.WashingSoda => grams * (entry.Strength ?? 1) * AlkaliProduct.SodaAsh.MolarMassGramsPerMol / AlkaliProduct.SodaAshDecahydrate.MolarMassGramsPerMol,
            _ => null,
        };

        public override double Untried(VatBalance balance)
        {
            var carbonate = balance.Carbonate;
            var share = Math.Min(0.8, carbonate.Sigma / Math.Max(1, carbonate.Value));
            return Math.Sqrt(share * share + AlkaliDoseRequest.UntriedSigma * AlkaliDoseRequest.UntriedSigma);
        }

        public override double Known(VatBalance balance) => Math.Max(1, balance.Carbonate.Value);

        public override DoseTheory? Theory(LedgerFacts facts, VatBalance before, DoseReadings read)
        {
            if (read is not { Ph: { } ph, PhAfter: { } later })
            {
                return null;
            }

            var after = UsedBath.PhAt(later, read.TemperatureAfterC, read.TemperatureC);
            var rise = after - ph;
            return rise >= LeastRise && ph >= 7 && after <= 13
                && AlkaliDosing.ByTheory(before.Liquor.Value, read.TemperatureC, before.Carbonate.Value, ph, after).FormalGrams is { } grams and > 0
                ? new(grams, AlkaliDosing.RepeatabilityPh / rise)
                : null;
        }
    }

    private sealed record ReducerKindOfVat : DoseKind
    {
        /// <summary>A smaller fall is lost in the electrode's drift, mV.</summary>
        private const double LeastFall = 10;

        public override TimeSpan Wait => TimeSpan.FromMinutes(DoseWait.ForReducer.LeastMinutes);

        public override double Scatter => 0.085;

        public override double? Grams(SessionEntry entry) =>
            entry is { Kind: EntryKind.Added, Material: Material.ReducingAgent, Amount: { } grams } ? grams : null;

        public override double Untried(VatBalance balance) => ReducerDoseRequest.UntriedSigma;

        public override DoseTheory? Theory(LedgerFacts facts, VatBalance before, DoseReadings read)
        {
            if (facts.Reducer is not { } agent || facts.Vat.Orp is not { } limits || read is not { Orp: { } orp, OrpAfter: { } later })
            {
                return null;
            }

            var sharpening = new Sharpening(orp, later + Midpoint(read.Ph, read.TemperatureC) - Midpoint(read.PhAfter, read.TemperatureAfterC), limits.WeakMillivolts);
            return sharpening.FromMillivolts - sharpening.ToMillivolts >= LeastFall
                && VatDose.Request(agent, before.Liquor.Value, read.TemperatureC) is var request
                && ReducerDosing.Answer(request with { Sharpening = sharpening }).Advice?.TheoryGrams is { } grams
                ? new(grams, ReducerDosing.ReadingSigma(sharpening))
                : null;
        }

        /// <summary>The potential at which half of the dye is reduced: what pH and warmth do to the ORP is not the agent's.</summary>
        private static double Midpoint(double? ph, double temperatureC) => ph is { } known ? MidpointModel.Default.MidpointMillivolts(known, temperatureC).Value : 0;
    }
}
