namespace VatWatch.Daemon.Web.Security;

/// <summary>What somebody may do on the pages and through the interface.</summary>
public enum Role
{
    /// <summary>Look at everything, change nothing.</summary>
    Viewer,

    /// <summary>Look and change: acknowledge, shelve, write into the log book, calibrate.</summary>
    Operator,
}
