using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Probes.Simulation;

/// <summary>
/// A dye vat as equations: the heat balance of <see cref="VatHeatModel"/>, the reduction of <see cref="VatRedoxModel"/> and the soda ash
/// that both eat. Deterministic for a seed. Not thread safe.
/// </summary>
internal sealed class VatModel
{
    /// <summary>A drum is about a quarter deeper than wide.</summary>
    private const double DepthToDiameter = 1.25;

    private const double RelativeHumidity = 0.5;

    /// <summary>A bath whose soda ash is all eaten stays a weak solution of bicarbonate; nothing here makes it an acid.</summary>
    private const double MostAcidShare = 0.98;

    /// <summary>An ordinary bucket thermostat switches half a kelvin either side.</summary>
    private const double ThermostatHysteresisC = 0.5;

    private const double MainsWaveHours = 3;
    private const double DayHours = 24;

    /// <summary>Water that wrung yarn holds, kg per kg; common practice, no source.</summary>
    private const double YarnWaterShare = 1.5;

    /// <summary>Air between the fibres of carelessly wetted yarn, L per kg; indigo chemistry reference counts 2 L for one load.</summary>
    private const double YarnAirLitresPerKg = 0.5;

    private static readonly TimeSpan Step = TimeSpan.FromSeconds(10);

    private readonly SimulationScenario _scenario;
    private readonly VatHeatModel _heatModel;
    private readonly VatRedoxModel _redox;
    private readonly BathComposition _alkali;
    private readonly double _fullKg;
    private VatHeatState _heat;
    private ulong _noise;
    private double _hours;
    private int _acted;
    private bool _lid;
    private bool _sticks;
    private double _heaterShare = 1;
    private double _airLitresPerHour;

    public VatModel(SimulationScenario scenario, double volumeLitres)
    {
        _scenario = scenario;
        _noise = (ulong)scenario.Seed + 1;
        _lid = scenario.Lid;
        var diameterM = VatGeometry.OfProportion(volumeLitres, DepthToDiameter).DiameterM;
        var plasticKg = volumeLitres / 21;
        _heatModel = new VatHeatModel(diameterM, scenario.Insulation, VatHeatCapacity.ShellJPerK(plasticKg));
        _heat = VatHeatState.OfVolume(scenario.StartC, volumeLitres);
        _fullKg = _heat.WaterKg;
        _redox = new VatRedoxModel(scenario, volumeLitres, _heatModel.Geometry(_heat).SurfaceM2);
        _alkali = new BathComposition(0, 0).Add(AlkaliProduct.SodaAsh, scenario.SodaAshGramsPerLitre * volumeLitres, volumeLitres, scenario.StartC);
        HeaterOn = scenario.ThermostatC is not { } setC || scenario.StartC < setC;
    }

    public double TemperatureC => _heat.TemperatureC;

    public double AmbientC => _scenario.AmbientC + _scenario.RoomSwingK * Math.Cos(2 * Math.PI * _hours / DayHours);

    public bool HeaterOn { get; private set; }

    public double LevelPercent => 100 * _heat.WaterKg / _fullKg;

    /// <summary>Of the full vat: water that evaporates takes neither alkali nor acid along, and concentrates both alike.</summary>
    public double Ph => BathEquilibrium.Solve(_alkali.AddAcid(Math.Min(_redox.AcidMoles / _fullKg, MostAcidShare * _alkali.AlkalinityMolal)), TemperatureC).Ph;

    public double OrpMillivolts => _redox.OrpMillivolts(Ph, TemperatureC);

    /// <summary>Lets <paramref name="time"/> pass.</summary>
    public void Advance(TimeSpan time)
    {
        for (var left = time; left > TimeSpan.Zero; left -= Step)
        {
            var seconds = (left < Step ? left : Step).TotalSeconds;
            Act();
            SwitchHeater();
            var inputs = new VatHeatInputs(HeaterOn ? HeaterWatts : 0, AmbientC, RelativeHumidity, _lid ? Lid.Loose : Lid.Off);
            _heat = _heatModel.Step(_heat, inputs, seconds);
            _redox.Advance(TemperatureC, seconds / 3600);
            _redox.LetInAir(_airLitresPerHour * seconds / 3600);
            _hours += seconds / 3600;
        }
    }

    /// <summary>Nearly normal noise of mean 0 and deviation 1: the sum of four uniform numbers of a linear congruential generator.</summary>
    public double Noise()
    {
        var sum = 0.0;
        for (var i = 0; i < 4; i++)
        {
            _noise = unchecked(_noise * 6364136223846793005UL + 1442695040888963407UL);
            sum += (_noise >> 11) * (1.0 / (1UL << 53)) - 0.5;
        }

        return sum * Math.Sqrt(3);
    }

    private double HeaterWatts => _scenario.HeaterWatts * _heaterShare
        * (1 + _scenario.MainsSwing * Math.Sin(2 * Math.PI * (_hours / MainsWaveHours + _scenario.Seed * 0.618)));

    private void Act()
    {
        for (; _acted < _scenario.Acts.Count && _scenario.Acts[_acted].At.TotalHours <= _hours; _acted++)
        {
            Do(_scenario.Acts[_acted]);
        }
    }

    /// <summary>Does something to the vat now, whatever the time in the act.</summary>
    public void Do(SimulatedAct act)
    {
        switch (act.Kind)
        {
            case SimulatedActKind.LidOff or SimulatedActKind.LidOn:
                _lid = act.Kind == SimulatedActKind.LidOn;
                _redox.Cover(_lid);
                break;
            case SimulatedActKind.Dip:
                _heat = _heatModel.AddBody(_heat, VatHeatCapacity.WetYarnJPerK(act.Amount, YarnWaterShare * act.Amount, AmbientC), AmbientC);
                _redox.Dip(act.Amount, YarnAirLitresPerKg * act.Amount);
                break;
            case SimulatedActKind.AirGetsIn:
                _airLitresPerHour = act.Amount;
                break;
            case SimulatedActKind.Sharpen:
                _redox.Sharpen(act.Amount);
                break;
            case SimulatedActKind.HeaterSticks:
                _sticks = true;
                break;
            case SimulatedActKind.HeaterFails:
                _heaterShare = 0;
                break;
            case SimulatedActKind.HeaterWeakens:
                _heaterShare = act.Amount;
                break;
        }
    }

    private void SwitchHeater()
    {
        if (_sticks)
        {
            HeaterOn = true;
        }
        else if (_scenario.ThermostatC is { } setC)
        {
            HeaterOn = HeaterOn ? TemperatureC < setC + ThermostatHysteresisC : TemperatureC < setC - ThermostatHysteresisC;
        }
    }
}
