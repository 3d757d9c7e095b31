namespace VatWatch.Ledger;

/// <summary>
/// Quantities that are known with a range and belong together: their best values and covariances, moved by steps and narrowed by readings (extended Kalman filter; R. E. Kalman,
/// J. Basic Eng. 82, 1960, 35). Derivatives are taken by differences. Not thread safe.
/// </summary>
internal sealed class UncertainState
{
    private readonly double[] _mean;
    private readonly double[,] _covariance;

    public UncertainState(params ReadOnlySpan<(double Mean, double Sigma)> prior)
    {
        _mean = new double[prior.Length];
        _covariance = new double[prior.Length, prior.Length];
        for (var i = 0; i < prior.Length; i++)
        {
            Set(i, prior[i].Mean, prior[i].Sigma);
        }
    }

    /// <summary>Best value of a quantity.</summary>
    public double Mean(int index) => _mean[index];

    /// <summary>Its standard deviation.</summary>
    public double Sigma(int index) => Math.Sqrt(Math.Max(0, _covariance[index, index]));

    /// <summary>Says a quantity anew; what was known of it before, and together with others, is forgotten.</summary>
    public void Set(int index, double mean, double sigma)
    {
        _mean[index] = mean;
        for (var i = 0; i < _mean.Length; i++)
        {
            _covariance[index, i] = _covariance[i, index] = 0;
        }

        _covariance[index, index] = sigma * sigma;
    }

    /// <summary>Moves every quantity by <paramref name="step"/>, which changes the values it is given, and widens those named by what the step itself leaves open.</summary>
    public void Move(Action<double[]> step, params ReadOnlySpan<(int Index, double Sigma)> noise)
    {
        var size = _mean.Length;
        var slope = new double[size, size];
        for (var from = 0; from < size; from++)
        {
            var (above, below, width) = Around(from, step);
            for (var to = 0; to < size; to++)
            {
                slope[to, from] = (above[to] - below[to]) / width;
            }
        }

        step(_mean);
        var carried = new double[size, size];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
            {
                for (var a = 0; a < size; a++)
                {
                    carried[row, column] += slope[row, a] * _covariance[a, column];
                }
            }
        }

        Array.Clear(_covariance);
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
            {
                for (var b = 0; b < size; b++)
                {
                    _covariance[row, column] += carried[row, b] * slope[column, b];
                }
            }
        }

        foreach (var (index, sigma) in noise)
        {
            _covariance[index, index] += sigma * sigma;
        }
    }

    /// <summary>Learns from a reading of a quantity that follows from these; one that is not finite is passed over.</summary>
    public void Observe(Func<double[], double> expected, double read, double sigma)
    {
        var size = _mean.Length;
        var slope = new double[size];
        for (var i = 0; i < size; i++)
        {
            var width = Width(i);
            var (above, below) = ((double[])_mean.Clone(), (double[])_mean.Clone());
            above[i] += width / 2;
            below[i] -= width / 2;
            slope[i] = (expected(above) - expected(below)) / width;
        }

        var surprise = read - expected(_mean);
        var shared = new double[size];
        var spread = sigma * sigma;
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < size; j++)
            {
                shared[i] += _covariance[i, j] * slope[j];
            }

            spread += slope[i] * shared[i];
        }

        if (!double.IsFinite(surprise) || !double.IsFinite(spread) || spread <= 0)
        {
            return;
        }

        for (var i = 0; i < size; i++)
        {
            _mean[i] += shared[i] / spread * surprise;
            for (var j = 0; j < size; j++)
            {
                _covariance[i, j] -= shared[i] * shared[j] / spread;
            }
        }
    }

    /// <summary>Keeps a quantity from falling below nothing.</summary>
    public void KeepPositive(int index) => _mean[index] = Math.Max(0, _mean[index]);

    private (double[] Above, double[] Below, double Width) Around(int index, Action<double[]> step)
    {
        var width = Width(index);
        var (above, below) = ((double[])_mean.Clone(), (double[])_mean.Clone());
        above[index] += width / 2;
        below[index] -= width / 2;
        step(above);
        step(below);
        return (above, below, width);
    }

    private double Width(int index) => Math.Max(1e-6, 1e-3 * Math.Abs(_mean[index]) + 0.02 * Sigma(index));
}
