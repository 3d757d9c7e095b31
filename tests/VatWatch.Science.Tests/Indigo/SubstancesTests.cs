using System.Globalization;
using System.Text.RegularExpressions;
using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

public sealed partial class SubstancesTests
{
    // Source: IUPAC abridged standard atomic weights.
    private static readonly Dictionary<string, double> AtomicWeights = new()
    {
        ["H"] = 1.008,
        ["C"] = 12.011,
        ["N"] = 14.007,
        ["O"] = 15.999,
        ["Na"] = 22.990,
        ["S"] = 32.06,
        ["Ca"] = 40.078,
        ["Fe"] = 55.845,
        ["Zn"] = 65.38,
    };

    public static TheoryData<string, string, double> Listed
        => new(Substances.All.Select(s => (s.Name, s.Formula, s.MolarMassGramsPerMole)));

    [Theory]
    [MemberData(nameof(Listed))]
    public void The_molar_mass_is_the_sum_of_its_formula(string name, string formula, double molarMass)
        => Assert.True(Math.Abs(MassOf(formula) - molarMass) < 0.02, $"{name}: {MassOf(formula):0.000} is not {molarMass}");

    // Source: ratio of the molar masses, 2.700 g of decahydrate for 1 g anhydrous.
    [Fact]
    public void Washing_soda_is_2_7_times_as_heavy_as_the_soda_ash_in_it()
        => Assert.Equal(
            2.700, Substances.WashingSoda.MolarMassGramsPerMole / Substances.SodaAsh.MolarMassGramsPerMole, 0.0005);

    // CAS registry numbers carry a check digit: the digits before it, weighted 1, 2, 3 … from the right, modulo 10.
    [Fact]
    public void Every_CAS_number_has_its_check_digit()
        => Assert.All(Substances.All, substance =>
        {
            var digits = substance.CasNumber.Where(char.IsAsciiDigit).Select(c => c - '0').Reverse().ToArray();
            Assert.Equal(digits[0], digits.Skip(1).Select((digit, i) => digit * (i + 1)).Sum() % 10);
        });

    private static double MassOf(string formula)
    {
        var expanded = Group().Replace(formula, m => string.Concat(Enumerable.Repeat(m.Groups[1].Value, Count(m.Groups[2].Value))));
        return expanded.Split('·').Sum(part =>
        {
            var leading = Leading().Match(part).Value;
            return Count(leading) * Element().Matches(part[leading.Length..])
                .Sum(m => AtomicWeights[m.Groups[1].Value] * Count(m.Groups[2].Value));
        });
    }

    private static int Count(string digits) => digits.Length == 0 ? 1 : int.Parse(digits, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\(([A-Za-z0-9]+)\)([0-9]*)")]
    private static partial Regex Group();

    [GeneratedRegex("^[0-9]*")]
    private static partial Regex Leading();

    [GeneratedRegex("([A-Z][a-z]?)([0-9]*)")]
    private static partial Regex Element();
}
