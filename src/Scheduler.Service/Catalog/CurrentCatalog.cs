using NodaTime;

namespace Scheduler.Service.Catalog;

/// <summary>
/// The catalog in use. It is exchanged as a whole when the owner's folder changed and could be read; who needs several
/// parts that fit together takes <see cref="Content"/> once.
/// </summary>
public sealed class CurrentCatalog
{
    private volatile State _state;

    public CurrentCatalog(CatalogContent content, Instant loadedAt)
    {
        ArgumentNullException.ThrowIfNull(content);
        _state = new State(content, loadedAt, null);
    }

    public CatalogContent Content => _state.Content;

    /// <summary>When the content in use was read, and why a later change was not taken; null: nothing is wrong.</summary>
    public (Instant LoadedAt, CatalogException? Problem) Reading => (_state.LoadedAt, _state.Problem);

    internal void Take(CatalogContent content, Instant now) => _state = new State(content, now, null);

    internal void Refuse(CatalogException problem) => _state = _state with { Problem = problem };

    private sealed record State(CatalogContent Content, Instant LoadedAt, CatalogException? Problem);
}
