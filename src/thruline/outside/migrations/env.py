"""How Alembic reaches the store: over the connection that `store_upgrade` hands it."""

from alembic import context

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=context.config.attributes["tables"],
    render_as_batch=True,
    compare_type=True,
)
with context.begin_transaction():
    context.run_migrations()
