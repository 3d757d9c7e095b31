namespace VatWatch.SystemTests.Faults;

/// <summary>
/// A folder as a disk may hold it after the power went. What was flushed is there; of what was not, any part may be: nothing, all of it, single writes, or halves
/// of them in sectors of 512 bytes. A name is there for certain once its folder was flushed; names that were not come back in their order up to some point, as
/// journaling file systems have it. A flush of a file says nothing about its name, which is stricter than ext4 is.
/// </summary>
internal sealed class CutDisk
{
    private const int Sector = 512;

    private readonly string _root;
    private readonly Dictionary<string, CutFile> _names = [];
    private readonly Dictionary<string, CutFile> _kept = [];
    private readonly List<(int Place, string Folder, Action<Dictionary<string, CutFile>> Change)> _changes = [];
    private int _place;

    /// <summary>Begins with what lies in <paramref name="folder"/> now, flushed; steps are those of <paramref name="root"/>.</summary>
    public CutDisk(string folder, string root)
    {
        _root = root;
        _kept[root] = new() { IsFolder = true };
        foreach (var path in Directory.EnumerateFileSystemEntries(folder, "*", SearchOption.AllDirectories))
        {
            var file = new CutFile { IsFolder = Directory.Exists(path) };
            file.Kept = file.IsFolder ? [] : File.ReadAllBytes(path);
            _kept[Path.Combine(root, Path.GetRelativePath(folder, path))] = file;
        }

        foreach (var (name, file) in _kept)
        {
            _names[name] = file;
        }
    }

    /// <summary>Writes to the database and its log that were not flushed when the last step had been taken.</summary>
    public int Unflushed => _names.Where(pair => pair.Key.EndsWith(".db", StringComparison.Ordinal) || pair.Key.EndsWith(".db-wal", StringComparison.Ordinal)).Sum(pair => pair.Value.Waiting.Count);

    /// <summary>Takes one step more.</summary>
    public void Take(DiskStep step)
    {
        switch (step.Act)
        {
            case DiskAct.Create when !_names.ContainsKey(step.Path):
                var made = new CutFile();
                Change(step.Path, names => names[step.Path] = made);
                break;
            case DiskAct.Create when step.At == 1:
                _names[step.Path].Waiting.Add((_place, 0, null));
                break;
            case DiskAct.MakeFolder when !_names.ContainsKey(step.Path):
                var folder = new CutFile { IsFolder = true };
                Change(step.Path, names => names[step.Path] = folder);
                break;
            case DiskAct.Write when _names.TryGetValue(step.Path, out var file):
                file.Waiting.Add((_place, step.At, step.Bytes));
                break;
            case DiskAct.Truncate when _names.TryGetValue(step.Path, out var file):
                file.Waiting.Add((_place, step.At, null));
                break;
            case DiskAct.Rename when _names.TryGetValue(step.Path, out var file):
                Change(step.Other, names =>
                {
                    names.Remove(step.Path);
                    names[step.Other] = file;
                });
                break;
            case DiskAct.Link when _names.TryGetValue(step.Path, out var file):
                Change(step.Other, names => names[step.Other] = file);
                break;
            case DiskAct.Remove:
                Change(step.Path, names => names.Remove(step.Path));
                break;
            case DiskAct.Flush when _names.TryGetValue(step.Path, out var file):
                Flush(step.Path, file, step.At);
                break;
        }

        _place++;
    }

    /// <summary>Writes the disk as it may be if the power went now; <paramref name="cut"/> chooses by its number what of the rest is there.</summary>
    public void WriteTo(string folder, int cut)
    {
        var random = new Random(cut);
        var way = cut % 4;
        var names = new Dictionary<string, CutFile>(_kept);
        foreach (var (_, _, change) in _changes.Take(way switch { 0 => 0, 1 => _changes.Count, _ => random.Next(_changes.Count + 1) }))
        {
            change(names);
        }

        foreach (var (name, file) in names.Where(pair => !pair.Value.IsFolder).OrderBy(pair => pair.Key, StringComparer.Ordinal))
        {
            // Where a folder's own name did not get to the disk, what is in it did not either.
            if (!Parents(name).All(names.ContainsKey))
            {
                continue;
            }

            var path = Path.Combine(folder, Path.GetRelativePath(_root, name));
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, file.Remains(way, random));
        }
    }

    private IEnumerable<string> Parents(string name)
    {
        for (var parent = Path.GetDirectoryName(name)!; parent.Length > _root.Length; parent = Path.GetDirectoryName(parent)!)
        {
            yield return parent;
        }
    }

    private void Change(string path, Action<Dictionary<string, CutFile>> change)
    {
        change(_names);
        _changes.Add((_place, Path.GetDirectoryName(path)!, change));
    }

    private void Flush(string path, CutFile file, long before)
    {
        if (!file.IsFolder)
        {
            file.Flush(before);
            return;
        }

        foreach (var change in _changes.Where(change => change.Folder == path && change.Place < before).ToList())
        {
            change.Change(_kept);
            _changes.Remove(change);
        }
    }

    /// <summary>One file: what is certainly there, and what was written since, in order; no bytes stand for a truncation.</summary>
    private sealed class CutFile
    {
        public bool IsFolder { get; init; }

        public byte[] Kept { get; set; } = [];

        public List<(int Place, long At, byte[]? Bytes)> Waiting { get; } = [];

        public void Flush(long before)
        {
            Kept = Waiting.Where(write => write.Place < before).Aggregate(Kept, (bytes, write) => Apply(bytes, write.At, write.Bytes));
            Waiting.RemoveAll(write => write.Place < before);
        }

        public byte[] Remains(int way, Random random)
        {
            var some = way == 2 ? random.Next(Waiting.Count + 1) : Waiting.Count;
            var bytes = Kept;
            foreach (var (_, at, written) in way == 0 ? [] : Waiting.Take(some))
            {
                if (way == 3 && random.Next(2) == 0)
                {
                    continue;
                }

                bytes = written is null || way < 3 ? Apply(bytes, at, written) : Torn(bytes, at, written, random);
            }

            return bytes;
        }

        private static byte[] Torn(byte[] bytes, long at, byte[] written, Random random)
        {
            for (var from = 0L; from < written.Length;)
            {
                var to = Math.Min(written.Length, from + Sector - (at + from) % Sector);
                if (random.Next(4) > 0)
                {
                    bytes = Apply(bytes, at + from, written[(int)from..(int)to]);
                }

                from = to;
            }

            return bytes;
        }

        private static byte[] Apply(byte[] bytes, long at, byte[]? written)
        {
            var length = written is null ? at : Math.Max(bytes.Length, at + written.Length);
            var next = length == bytes.Length ? (byte[])bytes.Clone() : new byte[length];
            if (length != bytes.Length)
            {
                bytes.AsSpan(0, (int)Math.Min(length, bytes.Length)).CopyTo(next);
            }

            written?.CopyTo(next, at);
            return next;
        }
    }
}
