using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;
using VatWatch.Science.Dosing;
using VatWatch.Science.Heat.Model;
using VatWatch.Science.Oxygen;
using VatWatch.Sessions.Entries;
using static VatWatch.Ledger.LedgerConstants;

namespace VatWatch.Ledger;

/// <summary>What happens to the liquor of one vat, step by step, with what each step leaves open. Amounts are of the whole vat. Not thread safe.</summary>
internal sealed class LiquorSteps
{
    /// <summary>Liquor, L.</summary>
    public const int Volume = 0;

    /// <summary>Indigo, g.</summary>
    public const int Dye = 1;

    /// <summary>Alkalinity, eq.</summary>
    public const int Alkali = 2;

    /// <summary>Carbonate in all its forms, mol.</summary>
    public const int Carbonate = 3;

    /// <summary>Reducing agent, g.</summary>
    public const int Agent = 4;

    /// <summary>Logarithm of what goods take up against what is usual.</summary>
    private const int Uptake = 5;

    /// <summary>Logarithm of what air burns against film theory.</summary>
    private const int Air = 6;

    /// <summary>What dissolves in the liquor and goes where it goes.</summary>
    private static readonly int[] Dissolved = [Dye, Alkali, Carbonate, Agent];

    private readonly VatDefinition _vat;
    private readonly ReducerKind? _reducer;
    private readonly double _surfaceM2;
    private readonly UncertainState _state;
    private double[] _carried = [];

    public LiquorSteps(VatDefinition vat, ReducerKind? reducer)
    {
        (_vat, _reducer) = (vat, reducer);
        var litres = vat.VolumeLitres;

        // A vat about as deep as it is wide (common practice, no source).
        _surfaceM2 = VatGeometry.OfProportion(litres, 1).SurfaceM2;
        _state = new UncertainState(
            (litres, FullShare * litres),
            Of(UnknownIndigoGrams, litres),
            Of(UnknownAlkaliEquivalents, litres),
            Of(UnknownCarbonateMoles, litres),
            reducer is null ? (0, 0) : Of(UnknownReducerGrams, litres),
            (0, UptakeSpread),
            (0, AirSpread));
    }

    public double Litres => _state.Mean(Volume);

    public double Indigo => _state.Mean(Dye);

    public double Equivalents => _state.Mean(Alkali);

    public double ReducerGrams => _state.Mean(Agent);

    public double Sigma(int index) => _state.Sigma(index);

    /// <summary>Other liquor; only what was learned of goods and air stays.</summary>
    public void MakeAnew(double litres)
    {
        _state.Set(Volume, litres, VolumeShare * litres);
        foreach (var index in Dissolved)
        {
            _state.Set(index, 0, 0);
        }

        _carried = [];
    }

    public void Add(Material material, double amount, double? strength)
    {
        switch (material)
        {
            case Material.Water:
                Pour(amount, (0, 0));
                break;
            case Material.Stock:
                Pour(amount, strength is { } said ? (said, MassShare * said) : StockStrength);
                break;
            case Material.Indigo:
                Powder(amount, strength is { } assay ? (assay, MassShare * assay) : DyeAssay);
                break;
            case Material.ReducingAgent when _reducer is not null:
                var pure = strength is { } share ? (share, MassShare * share) : (_reducer.UsualAssay, ReducerAssaySpread);
                _state.Move(state => state[Agent] += amount * pure.Item1, (Agent, amount * Math.Max(pure.Item2, MassShare)));
                break;
            case Material.SodaAsh or Material.WashingSoda or Material.Lye or Material.Lime:
                Alkalise(Product(material), amount * (strength ?? 1));
                break;
        }
    }

    public void DrawOff(double litres) => _state.Move(state => Leave(state, litres), (Volume, VolumeShare * litres));

    /// <summary>
    /// Time goes by: water evaporates (Shah, through the lid), air burns reducing agent and with it alkali, and carbon dioxide comes in.
    /// </summary>
    public void Pass(TimeSpan time, double warmthC, bool lidOff, bool dipping)
    {
        var (hours, liquorC) = (time.TotalHours, Math.Clamp(warmthC, 1, 99));
        var open = lidOff || dipping;
        var evaporated = Evaporation.ShahKgPerM2H(liquorC, RoomC, RoomHumidity) * _surfaceM2 * hours * (open ? 1 : ThroughLid);
        var state = dipping ? SurfaceState.Dipping : lidOff ? SurfaceState.OpenStill : SurfaceState.CoveredStill;
        var oxygen = OxygenLoad.ThroughSurfacePerDay([new SurfaceHours(TransferVelocity.Of(state).At(liquorC, 45), Math.Min(24, hours))], _surfaceM2, liquorC);
        var dioxide = CarbonDioxideMoles(hours, liquorC) * (open ? 1 : ThroughLid);
        Burn(Math.Sqrt(oxygen.LowGrams * oxygen.HighGrams));
        _state.Move(
            all =>
            {
                all[Volume] = Math.Max(0.2 * _vat.VolumeLitres, all[Volume] - evaporated);
                all[Carbonate] += dioxide;
            },
            (Volume, EvaporationShare * evaporated),
            (Carbonate, dioxide));
    }

    /// <summary>Goods come out after a dip: they take up dye, carry liquor away and have brought air.</summary>
    public void Dip(double kilograms, GoodsKind kind, bool weighed, TimeSpan length)
    {
        var time = Math.Sqrt(Math.Clamp(length / UsualDip, 0.05, 6));
        var taken = UptakePerKilogram(_vat.Fibre, kind) * kilograms * time;
        var share = weighed ? DipSpread : UnweighedShare;
        var perLitre = Indigo / Math.Max(1e-3, Litres);
        _state.Move(state => state[Dye] -= Math.Min(state[Dye], taken * Math.Exp(state[Uptake]) * state[Dye] / Math.Max(1e-3, state[Volume])), (Dye, share * Math.Min(Indigo, taken * perLitre)));
        if (_reducer is not null)
        {
            Burn(OxygenLoad.InCarriedAirGrams(CarriedAir * kilograms, RoomC));
        }

        var before = All();
        _state.Move(state => Leave(state, Carried.Mean * kilograms), (Volume, Carried.Sigma * kilograms));
        _carried = [.. before.Zip(All(), (was, now) => was - now)];
    }

    /// <summary>The goods go in again and bring back what they carried; the air has had its reducing agent.</summary>
    public void CarryBack()
    {
        var carried = _carried;
        _carried = [];
        if (carried.Length > 0)
        {
            _state.Move(state =>
            {
                foreach (var index in (int[])[Volume, Dye, Alkali, Carbonate])
                {
                    state[index] += carried[index];
                }
            });
        }
    }

    /// <summary>A reading by hand; false when it says nothing of what is in the vat.</summary>
    public bool Read(HandReading reading, double value, double warmthC)
    {
        switch (reading)
        {
            case HandReading.Indigo:
                _state.Observe(state => state[Dye] / state[Volume], value, AssayShare * Math.Max(0.1, value));
                break;
            case HandReading.Alkalinity:
                _state.Observe(state => 1000 * state[Alkali] / state[Volume], value, TitrationShare * Math.Max(1, value));
                break;
            case HandReading.Ph:
                _state.Observe(state => Ph(state, warmthC), value, StripPh);
                break;
            default:
                return false;
        }

        foreach (var index in Dissolved)
        {
            _state.KeepPositive(index);
        }

        return true;
    }

    private static (double Mean, double Sigma) Of((double Mean, double Sigma) perLitre, double litres) => (perLitre.Mean * litres, perLitre.Sigma * litres);

    private static AlkaliProduct Product(Material material) => material switch
    {
        Material.WashingSoda => AlkaliProduct.SodaAshDecahydrate,
        Material.Lye => AlkaliProduct.Lye,
        Material.Lime => AlkaliProduct.Lime,
        _ => AlkaliProduct.SodaAsh,
    };

    /// <summary>Litres of liquor leave with all that is dissolved in them.</summary>
    private static void Leave(double[] state, double litres)
    {
        var left = 1 - Math.Clamp(litres / Math.Max(1e-3, state[Volume]), 0, 1);
        state[Volume] *= left;
        foreach (var index in Dissolved)
        {
            state[index] *= left;
        }
    }

    private double[] All() => [Litres, Indigo, Equivalents, _state.Mean(Carbonate), ReducerGrams];

    private void Pour(double litres, (double Mean, double Sigma) gramsPerLitre) => _state.Move(
        state =>
        {
            state[Volume] += litres;
            state[Dye] += litres * gramsPerLitre.Mean;
        },
        (Volume, VolumeShare * litres),
        (Dye, litres * gramsPerLitre.Sigma));

    /// <summary>Dye that is not reduced takes reducing agent by the electron balance.</summary>
    private void Powder(double grams, (double Mean, double Sigma) assay)
    {
        var eaten = _reducer is null ? 0 : grams * assay.Mean * _reducer.Agent.GramsPerGramIndigo;
        _state.Move(
            state =>
            {
                state[Dye] += grams * assay.Mean;
                state[Agent] = Math.Max(0, state[Agent] - eaten);
            },
            (Dye, grams * Math.Max(assay.Sigma, MassShare)));
    }

    private void Alkalise(AlkaliProduct product, double grams)
    {
        var moles = grams / product.MolarMassGramsPerMol;
        _state.Move(
            state =>
            {
                state[Alkali] += moles * (product.SodiumPerMole + 2 * product.CalciumPerMole);

                // Lime meets carbonate first and takes it out as chalk, with its charge.
                var chalk = Math.Min(state[Carbonate], moles * product.CalciumPerMole);
                state[Carbonate] += moles * product.CarbonatePerMole - chalk;
                state[Alkali] -= 2 * chalk;
            },
            (Alkali, MassShare * 2 * moles));
    }

    /// <summary>Oxygen burns reducing agent while there is any, and that eats alkali.</summary>
    private void Burn(double oxygenGrams)
    {
        if (_reducer is null || oxygenGrams <= 0)
        {
            return;
        }

        var perOxygen = _reducer.Agent.GramsPerGramOxygen;
        var grams = oxygenGrams * Math.Sqrt(perOxygen.LowGrams * perOxygen.HighGrams);
        var equivalents = (_reducer.Agent.AlkaliByOxygen?.MeqPerGram ?? 0) / 1000;
        var burnt = Math.Min(ReducerGrams, grams);
        _state.Move(
            state =>
            {
                var gone = Math.Min(state[Agent], grams * Math.Exp(state[Air]));
                state[Agent] -= gone;
                state[Alkali] = Math.Max(0, state[Alkali] - gone * equivalents);
            },
            (Agent, 0.15 * burnt));
    }

    private double CarbonDioxideMoles(double hours, double liquorC) => Speciation(All(), liquorC) is { } bath
        ? CarbonDioxideUptake.Of(bath.HydroxideMolal, bath.TemperatureC, _surfaceM2).MmolPerHour * hours / 1000
        : 0;

    private static double Ph(double[] state, double warmthC) => Speciation(state, warmthC)?.Ph ?? double.NaN;

    /// <summary>The bath that this makes, 1 L counted as 1 kg of water; null where there is none.</summary>
    private static BathSpeciation? Speciation(double[] state, double warmthC)
    {
        var kilograms = Math.Max(1e-3, state[Volume]);
        try
        {
            return BathEquilibrium.Solve(new BathComposition(Math.Max(0, state[Alkali]) / kilograms, Math.Max(0, state[Carbonate]) / kilograms), Math.Clamp(warmthC, 1, 60));
        }
        catch (ArgumentOutOfRangeException)
        {
            return null;
        }
    }
}
