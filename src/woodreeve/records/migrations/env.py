"""Run the steps on the connection that the program has opened, inside its transaction."""

from alembic import context

context.configure(
    connection=context.config.attributes["connection"],
    transactional_ddl=True,
    transaction_per_migration=False,
)
with context.begin_transaction():
    context.run_migrations()
