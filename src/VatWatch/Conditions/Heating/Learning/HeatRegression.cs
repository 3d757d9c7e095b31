namespace VatWatch.Conditions.Heating.Learning;

/// <summary>
/// Recursive least squares with forgetting for dT = b ∫u dt - a ∫(T - Tref) dt + c ∫dt, in kelvin and hours: b heating rate of the heater,
/// a loss rate, c what the room differs from Tref. Textbook form (gain K = Px/S, P = (P - Kx'P)/λ); forgetting lets no variance grow beyond
/// that of the prior, so steady holding cannot wind it up. Not thread safe.
/// </summary>
internal sealed class HeatRegression
{
    public const int Heating = 0;
    public const int Loss = 1;
    public const int Room = 2;

    private const int Size = 3;

    /// <summary>With windows of 5 min a memory of 17 h.</summary>
    private const double Forgetting = 0.995;

    private readonly double[] _greatest = new double[Size];
    private readonly double[] _value = new double[Size];
    private readonly double[,] _covariance = new double[Size, Size];
    private readonly double[] _bound = new double[Size];

    /// <summary>Begins with independent priors.</summary>
    /// <param name="value">b K/h, a 1/h, c K/h.</param>
    /// <param name="sigma">Their standard deviations.</param>
    /// <param name="greatest">Largest b and a let through; c is bounded both ways.</param>
    public HeatRegression(ReadOnlySpan<double> value, ReadOnlySpan<double> sigma, ReadOnlySpan<double> greatest)
    {
        for (var i = 0; i < Size; i++)
        {
            _value[i] = value[i];
            _bound[i] = sigma[i] * sigma[i];
            _covariance[i, i] = _bound[i];
            _greatest[i] = greatest[i];
        }
    }

    public double this[int index] => _value[index];

    public double Covariance(int i, int j) => _covariance[i, j];

    public double Sigma(int index) => Math.Sqrt(Math.Max(0, _covariance[index, index]));

    /// <summary>What a window with these integrals should show, K, and the variance that the parameters give it, K².</summary>
    public (double Change, double Variance) Predict(ReadOnlySpan<double> x)
    {
        double change = 0, variance = 0;
        for (var i = 0; i < Size; i++)
        {
            change += x[i] * _value[i];
            for (var j = 0; j < Size; j++)
            {
                variance += x[i] * _covariance[i, j] * x[j];
            }
        }

        return (change, Math.Max(0, variance));
    }

    /// <summary>Learns from one window whose change was measured with <paramref name="noiseVariance"/> (K²).</summary>
    public void Update(ReadOnlySpan<double> x, double change, double noiseVariance)
    {
        var (predicted, variance) = Predict(x);
        var s = variance + Forgetting * noiseVariance;
        Span<double> px = stackalloc double[Size];
        for (var i = 0; i < Size; i++)
        {
            for (var j = 0; j < Size; j++)
            {
                px[i] += _covariance[i, j] * x[j];
            }
        }

        for (var i = 0; i < Size; i++)
        {
            _value[i] += px[i] / s * (change - predicted);
            for (var j = 0; j < Size; j++)
            {
                _covariance[i, j] -= px[i] * px[j] / s;
            }
        }

        Forget();
        Clamp();
    }

    /// <summary>Sets a parameter anew, independent of the others.</summary>
    public void Reset(int index, double value, double sigma)
    {
        _value[index] = value;
        for (var j = 0; j < Size; j++)
        {
            _covariance[index, j] = _covariance[j, index] = 0;
        }

        _covariance[index, index] = sigma * sigma;
    }

    /// <summary>Sets heating and loss as they were learned before, with their covariance.</summary>
    public void Restore(double heating, double loss, double heatingSigma, double lossSigma, double correlation)
    {
        Reset(Heating, heating, heatingSigma);
        Reset(Loss, loss, lossSigma);
        _covariance[Heating, Loss] = _covariance[Loss, Heating] = Math.Clamp(correlation, -0.98, 0.98) * Sigma(Heating) * Sigma(Loss);
    }

    private void Forget()
    {
        Span<double> scale = stackalloc double[Size];
        for (var i = 0; i < Size; i++)
        {
            scale[i] = Math.Sqrt(Math.Min(1 / Forgetting, Math.Max(1, _bound[i] / Math.Max(_covariance[i, i], 1e-12))));
        }

        for (var i = 0; i < Size; i++)
        {
            for (var j = 0; j < Size; j++)
            {
                _covariance[i, j] *= scale[i] * scale[j];
            }

            _covariance[i, i] = Math.Max(_covariance[i, i], 1e-12);
        }
    }

    private void Clamp()
    {
        _value[Heating] = Math.Clamp(_value[Heating], 0, _greatest[Heating]);
        _value[Loss] = Math.Clamp(_value[Loss], 0, _greatest[Loss]);
        _value[Room] = Math.Clamp(_value[Room], -_greatest[Room], _greatest[Room]);
    }
}
