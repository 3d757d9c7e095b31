using VatWatch.Ledger;

namespace VatWatch.Tests.Ledger;

public sealed class UncertainStateTests
{
    [Fact]
    public void A_reading_meets_what_was_known_by_the_weights_of_their_variances()
    {
        // Two normal distributions, N(10, 2²) and a reading 16 ± 1: mean 10 + 6 · 4 / 5, variance 4 · 1 / 5 (textbook product of normals).
        var state = new UncertainState((10, 2));
        state.Observe(all => all[0], 16, 1);
        Assert.Equal(14.8, state.Mean(0), 6);
        Assert.Equal(Math.Sqrt(0.8), state.Sigma(0), 6);
    }

    [Fact]
    public void What_was_moved_together_is_learned_together()
    {
        var state = new UncertainState((5, 1), (0, 0));
        state.Move(all => all[1] += 2 * all[0]);
        Assert.Equal((10, 2), (Math.Round(state.Mean(1), 6), Math.Round(state.Sigma(1), 6)));
        state.Observe(all => all[1], 12, 1e-6);
        Assert.Equal(6, state.Mean(0), 4);
        Assert.InRange(state.Sigma(0), 0, 1e-3);
    }

    [Fact]
    public void A_step_widens_by_what_it_leaves_open_and_saying_anew_forgets()
    {
        var state = new UncertainState((1, 3), (1, 0));
        state.Move(all => all[1] = all[0], (1, 4));
        Assert.Equal(5, state.Sigma(1), 6);
        state.Set(1, 7, 0.5);
        state.Observe(all => all[1], 8, 0.5);
        Assert.Equal((1, 3), (state.Mean(0), Math.Round(state.Sigma(0), 6)));
    }

    [Fact]
    public void A_reading_that_cannot_be_compared_is_passed_over()
    {
        var state = new UncertainState((1, 1));
        state.Observe(_ => double.NaN, 3, 1);
        Assert.Equal((1, 1), (state.Mean(0), state.Sigma(0)));
    }
}
