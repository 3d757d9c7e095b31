using MathNet.Numerics.LinearAlgebra;
using VatWatch.Conditions.Heating.Learning;

namespace VatWatch.Tests.Conditions.Heating.Learning;

public sealed class HeatRegressionTests
{
    private static readonly double[] Start = [8.0, 0.05, 0.0];
    private static readonly double[] Sigma = [4.0, 0.04, 0.2];
    private static readonly double[] Greatest = [40.0, 0.5, 5.0];

    [Fact]
    public void Without_forgetting_to_speak_of_it_agrees_with_least_squares_with_priors_solved_at_once()
    {
        // MathNet.Numerics, solution of the weighted normal equations (X'WX + P0^-1) θ = X'Wy + P0^-1 θ0 with the weights λ^(n-i).
        var random = new Random(4);
        const double lambda = 0.995, noise = 0.02;
        var regression = new HeatRegression(Start, Sigma, Greatest);
        var normal = Matrix<double>.Build.DenseOfDiagonalArray([.. Sigma.Select(s => 1 / (s * s))]);
        var right = normal * Vector<double>.Build.DenseOfArray(Start);
        for (var i = 0; i < 20; i++)
        {
            var x = Vector<double>.Build.DenseOfArray([i % 2 / 12.0, -(5 + i) / 12.0, 1 / 12.0]);
            var y = 7 * x[0] + 0.03 * x[1] + noise * (random.NextDouble() - 0.5);
            regression.Update(x.AsArray(), y, noise * noise);
            normal = lambda * normal + x.OuterProduct(x) / (noise * noise);
            right = lambda * right + x * y / (noise * noise);
        }

        var solved = normal.Solve(right);
        Assert.Equal(solved[HeatRegression.Heating], regression[HeatRegression.Heating], 0.01);
        Assert.Equal(solved[HeatRegression.Loss], regression[HeatRegression.Loss], 0.001);
        Assert.Equal(Math.Sqrt(normal.Inverse()[0, 0]), regression.Sigma(HeatRegression.Heating), 0.02);
    }

    [Fact]
    public void Steady_holding_does_not_wind_it_up()
    {
        var regression = new HeatRegression(Start, Sigma, Greatest);
        for (var i = 0; i < 5000; i++)
        {
            regression.Update([0, -20 / 12.0, 0], -20 / 12.0 * 0.03, 0.001);
        }

        Assert.InRange(regression.Sigma(HeatRegression.Heating), 0, 4.0001);
        Assert.Equal(8, regression[HeatRegression.Heating], 1e-6);
        Assert.Equal(0.03, regression[HeatRegression.Loss], 1e-4);
    }

    [Fact]
    public void Nonsense_is_clamped_to_what_a_vat_can_have()
    {
        var regression = new HeatRegression(Start, Sigma, Greatest);
        regression.Update([1 / 12.0, -1, 0], -50, 0.001);
        Assert.InRange(regression[HeatRegression.Heating], 0, 40);
        Assert.InRange(regression[HeatRegression.Loss], 0, 0.5);
    }

    [Fact]
    public void Restoring_brings_back_values_and_their_correlation()
    {
        var regression = new HeatRegression(Start, Sigma, Greatest);
        regression.Restore(9, 0.02, 0.2, 0.004, 0.6);
        Assert.Equal(9, regression[HeatRegression.Heating]);
        Assert.Equal(0.004, regression.Sigma(HeatRegression.Loss), 1e-9);
        Assert.Equal(0.6 * 0.2 * 0.004, regression.Covariance(HeatRegression.Heating, HeatRegression.Loss), 1e-9);
    }

    [Fact]
    public void What_is_doubted_beyond_what_was_thought_at_first_is_learned_anew()
    {
        var regression = new HeatRegression(Start, Sigma, Greatest);
        regression.Reset(HeatRegression.Heating, 20, 10);
        regression.Update([0, -20 / 12.0, 0], -20 / 12.0 * 0.03, 0.001);
        Assert.Equal(10, regression.Sigma(HeatRegression.Heating), 1e-6);
        for (var i = 0; i < 3; i++)
        {
            regression.Update([1 / 12.0, 0, 0], 4 / 12.0, 0.001);
        }

        Assert.Equal(4, regression[HeatRegression.Heating], 0.3);
    }
}
