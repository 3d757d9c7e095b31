namespace VatWatch.Nights.Physics;

/// <summary>
/// The liquor as layers, each with its part of the wall; warm liquor below cold turns over at once, cold below warm stays. Keeps account of every joule. Not thread safe.
/// </summary>
internal sealed class LayeredLiquor
{
    private const double StefanBoltzmann = 5.67e-8;

    private readonly VatBody _body;
    private readonly double[] _layers;
    private readonly double[] _walls;
    private readonly double[] _heat;
    private readonly double[] _poolHeat;
    private readonly int[] _poolSize;
    private readonly double _wallCapacity;
    private readonly double _boiling;

    public LayeredLiquor(VatBody body, double celsius)
    {
        _body = body;
        (_layers, _walls) = (new double[body.Layers], new double[body.Layers]);
        (_heat, _poolHeat, _poolSize) = (new double[body.Layers], new double[body.Layers], new int[body.Layers]);
        Mass = body.Litres * 0.99;
        _wallCapacity = Mass * Water.HeatCapacity * body.WallShare / body.Layers;
        _boiling = body.BoilingPoint;
        Array.Fill(_layers, celsius);
        Array.Fill(_walls, celsius);
    }

    /// <summary>kg.</summary>
    public double Mass { get; private set; }

    public bool LidOn { get; set; } = true;

    /// <summary>Heat put in less heat gone out since the start, J, reckoned from 0 °C.</summary>
    public double Balance { get; private set; }

    /// <summary>Heat held by liquor and wall, J, reckoned from 0 °C.</summary>
    public double Content => _layers.Sum() * LayerCapacity + _walls.Sum() * _wallCapacity;

    public double Mean => _layers.Average();

    public double Surface => _layers[^1];

    public double Spread => _layers.Max() - _layers.Min();

    /// <summary>True while the hottest layer boils.</summary>
    public bool Boils => _layers.Max() >= _boiling - 1e-6;

    private double LayerCapacity => Mass / _layers.Length * Water.HeatCapacity;

    /// <summary>Warmth at a height, share of the depth from the floor.</summary>
    public double At(double height)
    {
        var place = Math.Clamp(height * _layers.Length - 0.5, 0, _layers.Length - 1);
        var (below, above) = ((int)place, Math.Min((int)place + 1, _layers.Length - 1));
        return _layers[below] + (place - below) * (_layers[above] - _layers[below]);
    }

    /// <summary>Dry heat (W) and vapour (kg/s) that leave the surface.</summary>
    public static (double Heat, double Vapour) SurfaceLoss(VatBody body, double surface, double room, double humidity, bool lidOn)
    {
        var transfer = Water.StillAirTransfer(surface, room, humidity, body.Pressure);
        var vapour = Math.Max(0, body.SurfaceFactor * body.Top * Water.Evaporation(transfer, surface, room, humidity, body.Pressure));
        if (lidOn)
        {
            return (body.LidLoss * body.Top * (surface - room), body.LidLeak * vapour);
        }

        var radiation = 0.95 * StefanBoltzmann * (Math.Pow(surface + 273.15, 4) - Math.Pow(room + 273.15, 4));
        return (body.Top * (transfer * (surface - room) + radiation), vapour);
    }

    public void Step(double seconds, double heaterWatts, double room, double humidity)
    {
        Array.Clear(_heat);
        AddPlume(heaterWatts * seconds);
        var out_ = ThroughWalls(seconds, room);
        Diffuse(seconds);
        var (dry, vapour) = SurfaceLoss(_body, Surface, room, humidity, LidOn);
        var evaporated = vapour * seconds;
        _heat[^1] -= dry * seconds + evaporated * Water.LatentHeat(Surface);
        var lost = out_ + dry * seconds + evaporated * Water.LatentHeat(Surface);
        for (var i = 0; i < _layers.Length; i++)
            _layers[i] += _heat[i] / LayerCapacity;
        TurnOver();
        var (boiledHeat, boiledMass) = BoilOff();
        Balance += heaterWatts * seconds - lost - boiledHeat;
        Leave(evaporated + boiledMass);
    }

    /// <summary>Stirs until all is one, or only some of the way.</summary>
    public void Stir(double thoroughness = 1)
    {
        var mean = Mean;
        for (var i = 0; i < _layers.Length; i++)
            _layers[i] += thoroughness * (mean - _layers[i]);
    }

    /// <summary>Pours water in; the stream stirs what it falls into.</summary>
    public void Pour(double kilograms, double celsius)
    {
        var mixed = (Mass * Mean + kilograms * celsius) / (Mass + kilograms);
        var shift = mixed - Mean;
        for (var i = 0; i < _layers.Length; i++)
            _layers[i] += shift;
        Stir(0.3);
        Mass += kilograms;
        Balance += kilograms * Water.HeatCapacity * celsius;
    }

    /// <summary>Takes heat out of all layers alike, J: cold yarn that warms.</summary>
    public void Draw(double joules)
    {
        for (var i = 0; i < _layers.Length; i++)
            _layers[i] -= joules / _layers.Length / LayerCapacity;
        Balance -= joules;
    }

    private void AddPlume(double joules)
    {
        var element = Math.Min((int)(_body.ElementHeight * _layers.Length), _layers.Length - 1);
        var above = _layers.Length - element;
        for (var i = element; i < _layers.Length; i++)
            _heat[i] += joules * _body.Entrained / above;
        var reach = element;
        while (reach + 1 < _layers.Length && _layers[reach + 1] < _layers[element] + _body.PlumeExcess)
            reach++;
        _heat[reach] += joules * (1 - _body.Entrained);
    }

    private double ThroughWalls(double seconds, double room)
    {
        var area = _body.Side / _layers.Length;
        var gone = _body.BaseLoss * _body.Top * (_layers[0] - room) * seconds;
        _heat[0] -= gone;

        // The wall's own equation is solved exactly over the step, so that a thin one may be quicker than the step is long.
        var coupling = _body.WallFilm + _body.SideLoss;
        var turns = coupling * area * seconds / _wallCapacity;
        var kept = Math.Exp(-turns);
        for (var i = 0; i < _layers.Length; i++)
        {
            var end = (_body.WallFilm * _layers[i] + _body.SideLoss * room) / coupling;
            var mean = end + (_walls[i] - end) * (1 - kept) / turns;
            _heat[i] -= _body.WallFilm * area * (_layers[i] - mean) * seconds;
            gone += _body.SideLoss * area * (mean - room) * seconds;
            _walls[i] = end + (_walls[i] - end) * kept;
        }

        return gone;
    }

    private void Diffuse(double seconds)
    {
        var thickness = _body.Depth / _layers.Length;
        var share = Math.Min(0.25, _body.Eddy * seconds / (thickness * thickness));
        for (var i = 0; i + 1 < _layers.Length; i++)
        {
            var moved = share * LayerCapacity * (_layers[i + 1] - _layers[i]);
            _heat[i] += moved;
            _heat[i + 1] -= moved;
        }
    }

    /// <summary>Warm under cold turns over: neighbours are pooled until no layer is warmer than the one above.</summary>
    private void TurnOver()
    {
        var pools = 0;
        foreach (var celsius in _layers)
        {
            (_poolHeat[pools], _poolSize[pools]) = (celsius, 1);
            pools++;
            while (pools > 1 && _poolHeat[pools - 2] / _poolSize[pools - 2] > _poolHeat[pools - 1] / _poolSize[pools - 1])
            {
                _poolHeat[pools - 2] += _poolHeat[pools - 1];
                _poolSize[pools - 2] += _poolSize[pools - 1];
                pools--;
            }
        }

        for (int pool = 0, layer = 0; pool < pools; pool++)
        {
            for (var i = 0; i < _poolSize[pool]; i++)
                _layers[layer++] = _poolHeat[pool] / _poolSize[pool];
        }
    }

    /// <summary>What would go past the boiling point leaves as steam.</summary>
    private (double Heat, double Mass) BoilOff()
    {
        var surplus = 0.0;
        for (var i = 0; i < _layers.Length; i++)
        {
            surplus += Math.Max(0, _layers[i] - _boiling) * LayerCapacity;
            _layers[i] = Math.Min(_layers[i], _boiling);
        }

        return (surplus, surplus / Water.LatentHeat(_boiling));
    }

    private void Leave(double kilograms)
    {
        Balance -= kilograms * Water.HeatCapacity * Mean;
        Mass -= kilograms;
    }
}
