using System.Collections.Concurrent;
using System.Threading.Channels;

namespace Scheduler.Service.Weather;

/// <summary>Cells waiting for work in the background, each at most once.</summary>
internal sealed class WeatherQueue
{
    private readonly Channel<string> _cells = Channel.CreateUnbounded<string>(new UnboundedChannelOptions { SingleReader = true });
    private readonly ConcurrentDictionary<string, bool> _waiting = new();

    public void Add(string cellKey)
    {
        if (_waiting.TryAdd(cellKey, true))
            _cells.Writer.TryWrite(cellKey);
    }

    public async IAsyncEnumerable<string> TakeAllAsync([System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancel)
    {
        await foreach (var key in _cells.Reader.ReadAllAsync(cancel))
        {
            _waiting.TryRemove(key, out _);
            yield return key;
        }
    }
}
