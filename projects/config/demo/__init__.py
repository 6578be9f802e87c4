"""The invented scenario: read from `fixtures/demo`, loaded through the same services that the pages call."""
