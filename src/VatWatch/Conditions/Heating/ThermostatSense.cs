namespace VatWatch.Conditions.Heating;

/// <summary>Finds out where a thermostat switches the heater off, from the edges it makes. Not thread safe.</summary>
internal sealed class ThermostatSense
{
    /// <summary>Edges at one temperature that make a thermostat.</summary>
    private const int Edges = 2;

    /// <summary>How far the edges of one thermostat lie apart, K: a bucket thermostat's own spread and the delay of a slope.</summary>
    private const double SpreadK = 1.2;

    /// <summary>A heater that is still on this far above the edges does not follow the thermostat; heat-balance reference.</summary>
    public const double StuckAboveK = 1;

    private readonly Queue<double> _offC = new();

    /// <summary>Where it switches off, °C; null when no thermostat was seen.</summary>
    public double? OffC { get; private set; }

    /// <summary>Takes up what an earlier run saw.</summary>
    public void Restore(double? offC) => OffC = offC;

    /// <summary>The heater went off at this temperature.</summary>
    public void WentOff(double liquorC)
    {
        _offC.Enqueue(liquorC);
        if (_offC.Count > Edges)
        {
            _offC.Dequeue();
        }

        if (_offC.Count == Edges && _offC.Max() - _offC.Min() <= SpreadK)
        {
            OffC = _offC.Max();
        }
    }
}
