using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>A date on which a growth point was seen on a plant of this species in this garden.</summary>
public sealed record SeenPhase(int Bbch, LocalDate Date);
