using System.IO.Ports;
using System.Runtime.InteropServices;

namespace VatWatch.Probes.Serial.Ports;

/// <summary>Opens the device of a serial port and says in words why it cannot.</summary>
internal static class SerialDevice
{
    /// <summary>Opens and configures the port. Throws <see cref="BusLostException"/>.</summary>
    public static IPort Open(SerialSettings settings)
    {
        // Our own descriptor first: SerialPort then claims the device for this process (TIOCEXCL), and settings belong to the device.
        var handle = Libc.Open(
            settings.Port,
            Libc.OpenReadWrite | Libc.OpenNoControllingTerminal | Libc.OpenNonBlocking | Libc.OpenCloseOnExec);
        if (handle.IsInvalid)
        {
            var why = Explain(Marshal.GetLastPInvokeError());
            handle.Dispose();
            throw new BusLostException($"cannot open {settings.Port}: {why}");
        }

        try
        {
            return new PollPort(handle, Configure(settings));
        }
        catch
        {
            handle.Dispose();
            throw;
        }
    }

    /// <summary>What the path stands for now: the node behind a by-id link, or null when there is none.</summary>
    public static string? Target(string path)
    {
        try
        {
            return File.Exists(path) ? File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path : null;
        }
        catch (IOException)
        {
            return null;
        }
    }

    /// <summary>Opens the port by <see cref="SerialPort"/> alone. Throws <see cref="BusLostException"/>.</summary>
    public static SerialPort Configure(SerialSettings settings)
    {
        // A write that is never taken would keep SerialPort.Close from returning (dotnet/runtime 100690), so the limit is always set.
        var port = new SerialPort(settings.Port, settings.Baud, settings.Parity, settings.DataBits, settings.StopBits) { WriteTimeout = 1000 };
        try
        {
            if (settings.Dtr)
            {
                port.DtrEnable = true;
            }

            if (settings.Rts)
            {
                port.RtsEnable = true;
            }

            port.Open();
            return port;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or InvalidOperationException or ArgumentException)
        {
            port.Dispose();
            var refused = failure is UnauthorizedAccessException ? "it is no serial port, or another program has it" : failure.Message;
            throw new BusLostException($"cannot open {settings.Port}: {refused}", failure);
        }
    }

    private static string Explain(int error) => error switch
    {
        Libc.ErrorNoEntry => "there is no such device; look whether the instrument is plugged in",
        Libc.ErrorAccess => "this user may not use it; on most systems membership of the group dialout is wanted",
        Libc.ErrorBusy => "another program has it",
        Libc.ErrorNoDevice or Libc.ErrorNoDeviceAddress => "the device behind it is gone",
        _ => Marshal.GetPInvokeErrorMessage(error),
    };
}
