using NodaTime;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Places;

/// <summary>Gardens of an owner, after search and order.</summary>
/// <param name="Count">Before the search.</param>
public sealed record GardenListView(IReadOnlyList<GardenAnswer> Gardens, int Count, ListQuery Query, string? Notice);

/// <summary>One garden and the form of its settings.</summary>
public sealed record GardenView(GardenAnswer Garden, FormState Form, string? Notice);

/// <summary>The owner's own readings of a garden.</summary>
/// <param name="Report">How the last upload ended; null: nothing was sent just now.</param>
/// <param name="Fault">What was wrong with the file as a whole.</param>
public sealed record ReadingsView(
    Guid GardenId, string GardenName, int Count, LocalDate? First, LocalDate? Last, ReadingsAnswer? Report, string? FileName, string? Fault);

/// <summary>What was seen at the benches of a garden, newest first.</summary>
public sealed record BenchView(Guid GardenId, string GardenName, LocalDate Today, IReadOnlyList<BenchObservation> Seen, FormState Form, string? Notice);
