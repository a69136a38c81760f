namespace Scheduler.Service.Pages.Frame;

/// <summary>A file that came with a form.</summary>
/// <param name="Bytes">Null: none was chosen, or it is larger than what is read.</param>
/// <param name="IsTooLarge">It is larger than what is read.</param>
public sealed record SentFile(string Name, byte[]? Bytes, bool IsTooLarge)
{
    public static async Task<SentFile> ReadAsync(HttpRequest request, string field, int mostBytes, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (!request.HasFormContentType || (await request.ReadFormAsync(cancel)).Files.GetFile(field) is not { Length: > 0 } file)
            return new SentFile("", null, false);
        if (file.Length > mostBytes)
            return new SentFile(file.FileName, null, true);
        using var kept = new MemoryStream();
        await file.CopyToAsync(kept, cancel);
        return new SentFile(file.FileName, kept.ToArray(), false);
    }
}
