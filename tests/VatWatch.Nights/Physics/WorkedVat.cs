namespace VatWatch.Nights.Physics;

/// <summary>
/// A vat over weeks: carbonate with another buffer beside it (dye, fibre, plant matter), reducing agent that decays and burns and leaves acid, dye that goods take. Amounts are true ones, which no
/// log book knows. Not thread safe.
/// </summary>
internal sealed class WorkedVat(Chance chance)
{
    private const double SodaAshGramsPerMole = 105.99;
    private const double BufferMiddle = 9.5;
    private const double Remnant = 0.004;

    /// <summary>A smaller change of composition does not show in the pH, mol/L.</summary>
    private const double Unseen = 3e-6;

    private readonly double _buffer = chance.Uniform(0, 0.004);
    private readonly double _sodaAshPurity = chance.Uniform(0.9, 1);
    private readonly double _agentPurity = chance.Uniform(0.75, 1);
    private readonly double _decayPerHour = chance.Spread(0.002, 0.012);
    private readonly double _acidPerGram = chance.Uniform(0.008, 0.022);
    private readonly double _fold = chance.Uniform(32, 55);
    private readonly double _phTerm = chance.Uniform(-50, -28);
    private readonly double _warmTerm = chance.Uniform(0.4, 1.8);
    private readonly double _airPull = chance.Uniform(45, 100);
    private readonly double _eatingMinutes = chance.Spread(5, 14);
    private readonly double _dissolvingMinutes = chance.Uniform(3, 8);
    private readonly double _dioxidePerHour = chance.Spread(2e-6, 2e-5);
    private readonly double _wornByDip = chance.Uniform(0.01, 0.04);
    private readonly double _kilogramsPerPascal = chance.Spread(0.8e-4, 1.6e-4);
    private readonly double _throughLid = chance.Uniform(0, 0.2);
    private double _dissolvedPh;
    private (double Carbon, double Alkalinity, double Celsius) _solved = (double.NaN, 0, 0);
    private double _air;
    private double _carriedIndigo;
    private double _undissolved;

    /// <summary>L.</summary>
    public double Litres { get; set; } = chance.Spread(20, 200);

    /// <summary>mol/L.</summary>
    public double Carbon { get; set; } = chance.Uniform(0.008, 0.03);

    /// <summary>eq/L.</summary>
    public double Alkalinity { get; set; }

    /// <summary>g/L of pure agent at full strength.</summary>
    public double FullAgent { get; } = chance.Spread(0.25, 1.5);

    /// <summary>g/L of pure agent.</summary>
    public double Agent { get; set; }

    /// <summary>Pure dye, g.</summary>
    public double Indigo { get; set; }

    /// <summary>Uptake of 1 kg from 1 g/L, g; liquor that 1 kg carries away, L.</summary>
    public double Uptake { get; } = 1.7 * Math.Exp(chance.Normal(0.5));
    public double Carried { get; } = chance.Uniform(0.5, 2);

    /// <summary>At full strength, pH 10 and 45 °C, mV.</summary>
    public double Best { get; } = chance.Uniform(-790, -700);

    /// <summary>ORP at a share of the full strength, mV.</summary>
    public double MillivoltsAt(double share) => Best - _fold * Math.Log((share + Remnant) / (1 + Remnant));

    /// <summary>A vat whose acid is what this pH says.</summary>
    public void SetPh(double ph, double celsius) => Alkalinity = CarbonateBath.AtPh(ph, celsius, Carbon).Alkalinity + _buffer * (ph - BufferMiddle);

    public double Ph(double celsius)
    {
        if (_solved.Celsius != celsius || !(Math.Abs(_solved.Carbon - Carbon) + Math.Abs(_solved.Alkalinity - Alkalinity) < Unseen))
        {
            _dissolvedPh = Solve(celsius);
            _solved = (Carbon, Alkalinity, celsius);
        }

        return _dissolvedPh;
    }

    public double Millivolts(double celsius) =>
        MillivoltsAt(Math.Max(0, Agent) / FullAgent) + _airPull * _air + _phTerm * (Ph(celsius) - 10) + _warmTerm * (45 - celsius);

    /// <summary>Soda ash as weighed, g.</summary>
    public void AddSodaAsh(double grams)
    {
        var molal = grams * _sodaAshPurity / SodaAshGramsPerMole / Litres;
        (Carbon, Alkalinity) = (Carbon + molal, Alkalinity + 2 * molal);
    }

    /// <summary>Agent as weighed, g; it dissolves.</summary>
    public void AddAgent(double grams) => _undissolved += grams * _agentPurity / Litres;

    /// <summary>All that was given has dissolved.</summary>
    public void Settle() => (Agent, _undissolved) = (Agent + _undissolved, 0);

    public void Pass(double minutes, double celsius, bool isOpen)
    {
        Evaporate(celsius, minutes / 60 * (isOpen ? 1 : _throughLid));

        var dissolved = _undissolved * (1 - Math.Exp(-minutes / _dissolvingMinutes));
        var burnt = Agent * (1 - Math.Exp(-_decayPerHour * minutes / 60));
        _undissolved -= dissolved;
        Burn(burnt - dissolved, burnt);
        _air *= Math.Exp(-minutes * (Agent / FullAgent + 0.03) / _eatingMinutes);
        Carbon += _dioxidePerHour * minutes / 60;
    }

    /// <summary>Goods go through; wet from the dip before they bring their liquor back.</summary>
    public void Dip(double kilograms, bool isFirst)
    {
        if (!isFirst)
            (Litres, Indigo) = (Litres + Carried * kilograms, Indigo + _carriedIndigo);
        var worn = Math.Min(Agent, _wornByDip * FullAgent);
        Burn(worn, worn);
        Indigo -= Indigo * Math.Min(0.3, Uptake * kilograms / Litres);
        var before = Indigo;
        DrawOff(Carried * kilograms);
        _carriedIndigo = before - Indigo;
        _air += 1;
    }

    private void DrawOff(double litres)
    {
        Indigo *= 1 - litres / Litres;
        Litres -= litres;
    }

    /// <summary>Water of some hardness, L.</summary>
    public void Fill(double litres, double tapWater)
    {
        var kept = Litres / (Litres + litres);
        (Carbon, Alkalinity, Agent, Litres) = (Carbon * kept + tapWater * (1 - kept), Alkalinity * kept + tapWater * (1 - kept), Agent * kept, Litres + litres);
    }

    /// <summary>The same vat, for asking what would be.</summary>
    public WorkedVat Copy() => (WorkedVat)MemberwiseClone();

    private void Burn(double agent, double eatsAlkali) => (Agent, Alkalinity) = (Agent - agent, Alkalinity - _acidPerGram * eatsAlkali);

    /// <summary>A round vat as deep as it is wide, in a room of 18 °C and 60 %; what is dissolved stays.</summary>
    private void Evaporate(double celsius, double openHours)
    {
        var surface = Math.PI / 4 * Math.Pow(4 * Litres / 1000 / Math.PI, 2.0 / 3);
        var left = 1 - _kilogramsPerPascal * (Water.VapourPressure(celsius) - 0.6 * Water.VapourPressure(18)) * surface * openHours / Litres;
        (Litres, Carbon, Alkalinity, Agent, _undissolved) = (Litres * left, Carbon / left, Alkalinity / left, Agent / left, _undissolved / left);
    }

    /// <summary>False position after the Illinois rule: the other buffer gives alkali back as the pH falls.</summary>
    private double Solve(double celsius)
    {
        double Off(double ph) => new CarbonateBath(Carbon) { Alkalinity = Alkalinity - _buffer * (ph - BufferMiddle) }.Ph(celsius) - ph;

        var (low, high) = (6.0, 13.0);
        var (above, below) = (Off(low), Off(high));
        var middle = low;
        for (var (i, side) = (0, 0); i < 12; i++)
        {
            middle = (low * below - high * above) / (below - above);
            var off = Off(middle);
            if (Math.Abs(off) < 1e-5)
                break;
            if (off > 0)
            {
                (low, above, below) = (middle, off, side > 0 ? below / 2 : below);
                side = 1;
            }
            else
            {
                (high, below, above) = (middle, off, side < 0 ? above / 2 : above);
                side = -1;
            }
        }

        return middle;
    }
}
