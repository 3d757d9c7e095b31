using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection.Repositories;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// Keeps the keys of cookies and form tokens in a folder that only this user may open. What the disk does not take stays in memory, so that pages work on a
/// full or read-only disk; who signed in then signs in again after a restart. Thread safe. (A limit of file sizes, EFBIG, comes as ArgumentOutOfRangeException.)
/// </summary>
internal sealed class KeyFolder(string folder, ILoggerFactory logs) : IXmlRepository
{
    private readonly Lock _gate = new();
    private readonly List<XElement> _inMemory = [];

    public IReadOnlyCollection<XElement> GetAllElements()
    {
        lock (_gate)
        {
            return [.. Try(() => Files().GetAllElements()) ?? [], .. _inMemory.Select(element => new XElement(element))];
        }
    }

    public void StoreElement(XElement element, string friendlyName)
    {
        lock (_gate)
        {
            var isKept = Try(() =>
            {
                Files().StoreElement(element, friendlyName);
                return this;
            });
            if (isKept is null)
            {
                _inMemory.Add(new XElement(element));
            }
        }
    }

    private FileSystemXmlRepository Files() => new(
        OperatingSystem.IsWindows() ? Directory.CreateDirectory(folder) : Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute), logs);

    private static T? Try<T>(Func<T> act)
        where T : class
    {
        try
        {
            return act();
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException or ArgumentOutOfRangeException)
        {
            return null;
        }
    }
}
