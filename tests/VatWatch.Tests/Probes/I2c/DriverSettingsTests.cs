using VatWatch.Probes;
using VatWatch.Probes.I2c;
using VatWatch.Probes.I2c.Ads1115;
using VatWatch.Probes.I2c.Mcp960x;
using VatWatch.Probes.I2c.Mcp9808;
using VatWatch.Probes.I2c.UFireIse;
using VatWatch.Probes.OneWire;
using VatWatch.Probes.Spi;
using VatWatch.Probes.Spi.Max31865;

namespace VatWatch.Tests.Probes.I2c;

/// <summary>What the configuration may say to the drivers on I2C, SPI and 1-wire, and the sentence for everything else.</summary>
public sealed class DriverSettingsTests
{
    private const string Thermistor = "\"series\": \"10 kΩ\", \"supply\": \"3.3 V\"";

    [Theory]
    [InlineData("ads1115", """{ "input": "ain0", "volts": {} }""", "settings.address is missing; wanted an I2C address from \"0x48\" to \"0x4B\".")]
    [InlineData("ads1115", """{ "address": "72", "input": "ain0", "volts": {} }""", "settings.address is \"72\"; wanted an I2C address from \"0x48\" to \"0x4B\".")]
    [InlineData("ads1115", """{ "address": "0x4C", "input": "ain0", "volts": {} }""", "settings.address is \"0x4C\"; wanted")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain4", "volts": {} }""", "settings.input is \"ain4\"; wanted one of \"ain0\"")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "range": "5 V", "volts": {} }""", "settings.range is \"5 V\"; wanted one of \"6.144 V\"")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "range": "4.096", "volts": {} }""", "settings.range is \"4.096\"; wanted one of")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "range": "4.0964 V", "volts": {} }""", "settings.range is \"4.0964 V\"; wanted one of")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "rate": 100, "volts": {} }""", "settings.rate is 100; wanted one of 8, 16, 32, 64, 128, 250, 475, 860.")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0" }""", "settings is without what its voltage stands for; wanted one of the sections \"electrode\", \"thermistor\", \"volts\".")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "volts": {}, "electrode": {} }""", "settings is with more than one meaning of its voltage; wanted")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "electrode": { "gain": 0 } }""", "settings.electrode.gain is 0; wanted a number from 0.01 to 1000")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "electrode": { "zero": 1.5 } }""", "settings.electrode.zero is 1.5; wanted a potential with its unit")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "electrode": { "unit": "V" } }""", "settings.electrode.unit is \"V\"; wanted \"electrode mV\" or \"mV\".")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "electrode": { "slope": 1 } }""", "settings.electrode.slope is an unknown key")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "volts": { "scale": 2 } }""", "settings.volts.scale is an unknown key")]
    [InlineData("ufire-ise", """{ "address": "0x80" }""", "settings.address is \"0x80\"; wanted an I2C address from \"0x08\" to \"0x77\".")]
    [InlineData("ufire-ise", """{ "unit": "pH" }""", "settings.unit is \"pH\"; wanted \"electrode mV\" or \"mV\".")]
    public void One_sentence_says_what_is_wrong_with_an_ORP_probe(string driver, string settings, string sentence) =>
        Assert.StartsWith(sentence, Assert.Single(I2cRig.FaultsOf(Driver(driver), settings, Quantity.Orp)));

    [Theory]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "electrode": {} }""", "settings.electrode is set for a probe that measures \"temperature\"; wanted an electrode for a probe that measures \"ph\" or \"orp\".")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "volts": {} }""", "settings.volts is set for a probe that measures \"temperature\"; wanted plain volts for a probe that measures \"orp\".")]
    [InlineData("ads1115", $$"""{ "address": "0x48", "input": "ain0", "thermistor": { {{Thermistor}}, "beta": "3977 K" } }""", "settings.thermistor.nominal is missing; wanted a")]
    [InlineData("ads1115", $$"""{ "address": "0x48", "input": "ain0", "thermistor": { {{Thermistor}}, "nominal": "10 kΩ" } }""", "settings.thermistor is without coefficients; wanted one of \"beta\", \"ratio\", \"steinhartHart\".")]
    [InlineData("ads1115", $$"""{ "address": "0x48", "input": "ain0", "thermistor": { {{Thermistor}}, "nominal": "10 kΩ", "beta": 3977 } }""", "settings.thermistor.beta is 3977; wanted the constant B of the part with its unit, such as \"3977 K\"")]
    [InlineData("ads1115", $$"""{ "address": "0x48", "input": "ain0", "thermistor": { {{Thermistor}}, "supplyInput": "ain1", "nominal": "10 kΩ", "beta": "3977 K" } }""", "settings.thermistor.supply is set beside supplyInput; wanted one of the two")]
    [InlineData("ads1115", $$"""{ "address": "0x48", "input": "ain0", "thermistor": { {{Thermistor}}, "steinhartHart": { "a": 1e-3, "b": 2e-4 } } }""", "settings.thermistor.steinhartHart.c is missing; wanted a number from -1 to 1.")]
    [InlineData("ads1115", """{ "address": "0x48", "input": "ain0", "thermistor": { "series": "10 kΩ", "nominal": "10 kΩ", "beta": "3977 K" } }""", "settings.thermistor.supply is missing; wanted a potential with its unit")]
    [InlineData("mcp9808", """{ "address": "0x20" }""", "settings.address is \"0x20\"; wanted an I2C address from \"0x18\" to \"0x1F\".")]
    [InlineData("mcp9808", """{ "offset": 1 }""", "settings.offset is an unknown key")]
    [InlineData("mcp960x", """{ "type": "Z" }""", "settings.type is \"Z\"; wanted one of \"K\", \"J\", \"T\", \"N\", \"S\", \"E\", \"B\", \"R\".")]
    [InlineData("mcp960x", """{ "junction": "warm" }""", "settings.junction is \"warm\"; wanted one of \"hot\", \"cold\".")]
    [InlineData("max31865", "{}", "settings.wires is missing; wanted a whole number from 2 to 4.")]
    [InlineData("max31865", """{ "wires": 5 }""", "settings.wires is 5; wanted a whole number from 2 to 4.")]
    [InlineData("max31865", """{ "wires": 3, "element": "pt500" }""", "settings.element is \"pt500\"; wanted one of \"pt100\", \"pt1000\".")]
    [InlineData("max31865", """{ "wires": 3, "reference": "430" }""", "settings.reference is \"430\"; wanted a")]
    [InlineData("max31865", """{ "wires": 3, "mains": "55 Hz" }""", "settings.mains is \"55 Hz\"; wanted one of \"60 Hz\", \"50 Hz\".")]
    [InlineData("ufire-ise", "{}", "settings is for the driver \"ufire-ise\" on a probe that measures \"temperature\"; wanted a probe that measures \"ph\" or \"orp\".")]
    [InlineData("onewire", "{}", "settings.id is missing; wanted the folder name of a 1-wire thermometer")]
    [InlineData("onewire", """{ "id": "28-XYZ" }""", "settings.id is \"28-XYZ\"; wanted the folder name of a 1-wire thermometer")]
    [InlineData("onewire", """{ "id": "../28-0316a2797ac5" }""", "settings.id is \"../28-0316a2797ac5\"; wanted")]
    public void One_sentence_says_what_is_wrong_with_a_thermometer(string driver, string settings, string sentence) =>
        Assert.StartsWith(sentence, Assert.Single(I2cRig.FaultsOf(Driver(driver), settings)));

    [Theory]
    [InlineData("mcp9808", "{}")]
    [InlineData("mcp960x", "{}")]
    [InlineData("max31865", """{ "wires": 3 }""")]
    [InlineData("onewire", """{ "id": "28-0316a2797ac5" }""")]
    public void A_thermometer_measures_no_pH(string driver, string settings) => Assert.Equal(
        $"settings is for the driver \"{driver}\" on a probe that measures \"ph\"; wanted a probe that measures \"temperature\" or \"ambient\".",
        Assert.Single(I2cRig.FaultsOf(Driver(driver), settings, Quantity.Ph)));

    [Fact]
    public void The_electrode_board_is_given_its_time() => Assert.StartsWith(
        "settings is for the driver \"ufire-ise\" on a probe read every 0.5 s; wanted",
        Assert.Single(I2cRig.FaultsOf(new UFireIseDriver(), "{}", Quantity.Ph, everySeconds: 0.5)));

    [Fact]
    public void A_broken_object_is_told_once()
    {
        foreach (var driver in new[] { "ads1115", "mcp9808", "mcp960x", "max31865", "onewire" })
        {
            Assert.Equal("settings is 5; wanted an object { ... }.", Assert.Single(I2cRig.FaultsOf(Driver(driver), "5")));
        }
    }

    [Theory]
    [InlineData("i2c", """{ "bus": 32 }""", "settings.bus is 32; wanted a whole number from 0 to 31.")]
    [InlineData("i2c", """{ "bus": "1" }""", "settings.bus is \"1\"; wanted a whole number from 0 to 31.")]
    [InlineData("spi", """{ "chipSelect": -1 }""", "settings.chipSelect is -1; wanted a whole number from 0 to 31.")]
    [InlineData("onewire", """{ "root": "" }""", "settings.root is \"\"; wanted a folder.")]
    [InlineData("onewire", """{ "bus": 1 }""", "settings.bus is an unknown key")]
    public void The_buses_are_checked_too(string kind, string settings, string sentence)
    {
        IBusKind[] kinds = [new I2cBusKind(), new SpiBusKind(), new OneWireBusKind()];
        var node = I2cRig.Node(settings, out var faults);
        kinds.Single(candidate => candidate.Word == kind).Read(new BusId("pi"), node);
        node.Done();
        Assert.StartsWith(sentence, Assert.Single(faults.All).ToString());
    }

    private static IProbeDriver Driver(string word)
    {
        IProbeDriver[] drivers = [new Ads1115Driver(), new Mcp9808Driver(), new Mcp960xDriver(), new UFireIseDriver(), new Max31865Driver(), new OneWireDriver()];
        return drivers.Single(driver => driver.Word == word);
    }
}
