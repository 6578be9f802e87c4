"""What the schedule costs: takeoff, stock and cuts, pricing. Pure: no Django, no clock, no database."""
