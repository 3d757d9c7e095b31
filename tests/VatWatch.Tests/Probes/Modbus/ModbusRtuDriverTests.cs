using VatWatch.Probes.Modbus;
using VatWatch.Tests.Probes.Serial;

namespace VatWatch.Tests.Probes.Modbus;

public sealed class ModbusRtuDriverTests
{
    [Theory]
    [InlineData("address", "0", "settings.address is 0; wanted a whole number from 1 to 247.")]
    [InlineData("address", "248", "settings.address is 248; wanted a whole number from 1 to 247.")]
    [InlineData("function", "6", "settings.function is 6; wanted a whole number from 1 to 4.")]
    [InlineData("function", "2", "settings.format is \"float32-abcd\"; wanted \"bit\" with function 1 or 2, and no other function with \"bit\".")]
    [InlineData("format", "\"bit\"", "settings.format is \"bit\"; wanted \"bit\" with function 1 or 2, and no other function with \"bit\".")]
    [InlineData("register", "65536", "settings.register is 65536; wanted a whole number from 0 to 65535.")]
    [InlineData("register", "65535", "settings.register is 65535; wanted a register with one after it, for a number of two registers.")]
    [InlineData("format", "\"float64\"", "settings.format is \"float64\"; wanted one of \"int16\", \"uint16\", \"int32\"")]
    [InlineData("scale", "0", "settings.scale is 0; wanted a factor other than 0.")]
    [InlineData("scale", "\"0.1\"", "settings.scale is \"0.1\"; wanted a number from -1000000 to 1000000.")]
    [InlineData("unit", "\"mV\"", "settings.unit is \"mV\"; wanted \"°C\"")]
    [InlineData("slave", "1", "settings.slave is an unknown key")]
    public void One_sentence_says_what_is_wrong(string key, string value, string sentence)
    {
        var settings = new Dictionary<string, string>
        {
            ["address"] = "17",
            ["function"] = "4",
            ["register"] = "8",
            ["format"] = "\"float32-abcd\"",
            ["unit"] = "\"°C\"",
            [key] = value,
        };
        var text = "{" + string.Join(",", settings.Select(pair => $"\"{pair.Key}\": {pair.Value}")) + "}";
        Assert.StartsWith(sentence, Assert.Single(SerialBench.FaultsOf(new ModbusRtuDriver(), text)));
    }
}
