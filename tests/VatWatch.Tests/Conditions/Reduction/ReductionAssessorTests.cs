using VatWatch.Conditions;

namespace VatWatch.Tests.Conditions.Reduction;

public sealed class ReductionAssessorTests
{
    [Fact]
    public void An_electrode_that_drifts_stays_in_doubt_when_the_thermometer_shows_a_small_step()
    {
        var vat = new ScriptedVat { LiquorC = 45, PowerW = 108, HeaterOn = true, HeaterSays = false };
        var begun = vat.Now;
        vat.Run(300, _ => vat.OrpMillivolts = -700 + 10 * (vat.Now - begun).TotalHours);
        Assert.Contains(vat.Assessor.Assess(vat.Stamp).Diagnoses, IsDrift);
        vat.LiquorC -= 1;
        var cold = 0;
        vat.Run(60, _ =>
        {
            vat.OrpMillivolts = -700 + 10 * (vat.Now - begun).TotalHours;
            var diagnoses = vat.Assessor.Assess(vat.Stamp).Diagnoses;
            cold += diagnoses.Any(one => one.Kind == DiagnosisKind.ColdLoad) ? 1 : 0;
            Assert.Contains(diagnoses, IsDrift);
        });
        Assert.True(cold > 0);
    }

    private static bool IsDrift(Diagnosis one) => one.Kind == DiagnosisKind.ElectrodeDrift;
}
