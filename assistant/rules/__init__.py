"""The knowledge base: models, loading, layers, checking. The only reader of knowledge/."""
