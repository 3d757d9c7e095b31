using System.Text;
using System.Text.RegularExpressions;

namespace VatWatch.Science.Electrodes;

/// <summary>Reads the many spellings of a reference electrode's name.</summary>
internal static partial class ReferenceElectrodeName
{
    private const string Noise = "(),'’[]";

    internal static ReferenceElectrode? Find(string? text)
    {
        if (text is null)
            return null;

        var letters = new StringBuilder(text.Length);
        foreach (var letter in text)
        {
            if (!char.IsWhiteSpace(letter) && !Noise.Contains(letter))
                letters.Append(letter);
        }

        var name = letters.ToString().ToLowerInvariant();
        if (HydrogenName().IsMatch(name))
            return ReferenceElectrode.StandardHydrogen;

        if (CalomelName().IsMatch(name))
            return ReferenceElectrode.SaturatedCalomel;

        var silver = SilverChlorideName().Match(name);
        return silver.Success ? ByFilling(silver) : null;
    }

    private static ReferenceElectrode? ByFilling(Match silver)
    {
        var usgs = silver.Groups["usgs"].Success;
        if (silver.Groups["saturated"].Success)
            return usgs ? null : ReferenceElectrode.SilverChlorideSaturated;

        var molar = double.Parse(silver.Groups["molar"].ValueSpan);
        return (molar, usgs) switch
        {
            (1, false) => ReferenceElectrode.SilverChloride1M,
            (3, false) => ReferenceElectrode.SilverChloride3M,
            (3, true) => ReferenceElectrode.SilverChloride3MUsgs,
            (3.5, false) => ReferenceElectrode.SilverChloride3M5,
            _ => null,
        };
    }

    [GeneratedRegex("^(she|nhe|(standard|normal)hydrogen(electrode)?)$")]
    private static partial Regex HydrogenName();

    [GeneratedRegex("^(sce|saturatedcalomel(electrode)?|calomelsat(urated|d|\\.)?(kcl)?|hg/hg2cl2sat(urated|d|\\.)?(kcl)?)$")]
    private static partial Regex CalomelName();

    [GeneratedRegex(@"^(ag[/|-]agcl|silver[/-]?silverchloride|silverchloride)[:;-]?((?<molar>[0-9]{1,2}(\.[0-9]{1,3})?)(m|mol/l|mol/dm3|molar)(kcl)?|(?<saturated>sat(urated|d|\.)?)(kcl)?)(?<usgs>usgs)?$")]
    private static partial Regex SilverChlorideName();
}
