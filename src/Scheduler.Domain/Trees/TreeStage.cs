namespace Scheduler.Domain.Trees;

/// <summary>What the tree is now: how far it has come from a thin trunk to a full, fine outline (common practice).</summary>
public enum TreeStage { TrunkBuilding, BranchBuilding, Ramification, Refinement }

/// <summary>What the owner wants from the tree this year. <see cref="Recover"/> outranks all others.</summary>
public enum Goal { Slender, ThickenBranch, ThickenTrunk, BackBud, Flowers, Light, ChangeLeader, Recover }

/// <summary>Vigor, judged by the last flush: full extension, some extension, poor leaf, or dieback running.</summary>
public enum Health { Failing, Weak, Sound, Vigorous }

/// <summary>Height above the rim: xs under 15 cm, s to 25, m to 45, l to 75, xl above.</summary>
public enum TreeSize { Xs, S, M, L, Xl }

/// <summary>Where the tree stands.</summary>
public enum Placement { Open, Sheltered, ColdFrame, Indoors }

/// <summary>Part of one crown. Not to be confused with the hardiness zone of a place.</summary>
public enum CrownZone { Top, Middle, Lower, Inner }

/// <summary>How much of the roots was worked: none, under 10 %, 10-40 %, over 40 %. Strong belongs to feeding.</summary>
public enum Extent { None, Light, Normal, Hard, Strong }

/// <summary>How a tree came to the garden when that still counts: it rests for two growing seasons after these.</summary>
public enum OriginKind { Collected, Imported, Grafted, Dried }
