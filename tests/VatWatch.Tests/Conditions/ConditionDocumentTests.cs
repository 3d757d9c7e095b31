using VatWatch.Conditions;
using VatWatch.Conditions.Heating;

namespace VatWatch.Tests.Conditions;

public sealed class ConditionDocumentTests
{
    private readonly ScriptedVat _vat = new();

    [Fact]
    public void Without_a_warm_up_there_is_none() => Assert.Null(ConditionDocument.Of(_vat.Run(5)).WarmUp);

    [Fact]
    public void A_warm_up_stands_in_it_with_what_is_expected_and_what_fits_its_trouble()
    {
        var wish = _vat.Stamp.Utc.AddHours(1);
        _vat.Run(2);
        _vat.Assessor.Note(new VatAct(VatActKind.HeaterOn, _vat.Stamp) { ReadyBy = wish });
        var warmUp = ConditionDocument.Of(_vat.Run(35)).WarmUp;
        Assert.NotNull(warmUp);
        Assert.True(warmUp.WasEntered);
        Assert.Equal(wish, warmUp.ReadyBy);
        Assert.Equal(20, warmUp.StartC!.Value, 0.1);
        Assert.InRange(warmUp.RiseK!.Value, -0.2, 0.2);
        Assert.True(warmUp.LeastRiseK > 0.5 && warmUp.MostRiseK > warmUp.LeastRiseK);
        Assert.NotNull(warmUp.SlowSince);
        Assert.NotEmpty(warmUp.Causes);
        Assert.DoesNotContain(WarmUpCause.LidOffOrWeakHeater, warmUp.Causes);
    }
}
