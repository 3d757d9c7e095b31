namespace VatWatch.Probes.Modbus;

/// <summary>How a number stands in the registers of a device. Each register is two bytes, high byte first.</summary>
internal enum RegisterFormat
{
    /// <summary>One register, with sign.</summary>
    Int16,

    /// <summary>One register, without sign.</summary>
    UInt16,

    /// <summary>Two registers, high one first, with sign.</summary>
    Int32,

    /// <summary>Two registers, high one first, without sign.</summary>
    UInt32,

    /// <summary>Two registers, low one first, with sign.</summary>
    Int32Swapped,

    /// <summary>Two registers, low one first, without sign.</summary>
    UInt32Swapped,

    /// <summary>One coil or discrete input, 0 or 1; functions 1 and 2 have no other.</summary>
    Bit,

    /// <summary>IEEE 754 single in byte order ABCD: high register first, high byte first.</summary>
    FloatAbcd,

    /// <summary>Order CDAB: low register first.</summary>
    FloatCdab,

    /// <summary>Order BADC: the bytes of each register swapped.</summary>
    FloatBadc,

    /// <summary>Order DCBA: lowest byte first.</summary>
    FloatDcba,
}
