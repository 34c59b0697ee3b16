"""Rules as dated, cited data: one folder a region, one file a family."""
