using VatWatch.Science.Dosing;

namespace VatWatch.Science.Tests.Dosing;

public sealed class SharpeningTests
{
    [Fact]
    public void A_usual_dose_takes_a_weak_vat_to_its_usual_fall() => Assert.Equal(1, new Sharpening(-640, -700, -640).Share, 1e-12);

    // By hand: e^(40/42) - 1 = 1.592 over e^(60/42) - 1 = 3.173.
    [Fact]
    public void Less_fall_takes_less_by_the_logarithmic_law() => Assert.Equal(1.592 / 3.173, new Sharpening(-640, -680, -640).Share, 1e-3);

    [Fact]
    public void Portions_add_up_to_the_whole()
    {
        var (first, second, whole) = (new Sharpening(-620, -655, -640), new Sharpening(-655, -690, -640), new Sharpening(-620, -690, -640));
        Assert.Equal(whole.Share, first.Share + second.Share, 1e-12);
        Assert.Equal(whole.Share, second.AgentShare - first.AgentShare + second.Share, 1e-12);
    }

    [Fact]
    public void A_vat_that_is_sharp_enough_gets_nothing()
    {
        var answer = ReducerDosing.Answer(new ReducerDoseRequest(ReducerKind.ThioureaDioxide, 60, 45, 30) { Sharpening = new(-700, -680, -640) });
        Assert.Contains("add no reducing agent", answer.Refusal, StringComparison.Ordinal);
    }
}
