// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "stranger.h"

#include "domain/jsontext.h"
#include "storage/sitekeycheck.h"

namespace ramplight::test {

Stranger::Stranger(const StoreSettings& settings)
    : m_connection(Connection::open(settings).value())
    , m_site(settings.site)
{
    if (!m_site.isEmpty())
        return;
    auto rows = m_connection->run("SELECT site FROM site");
    if (!rows || !rows->next())
        qFatal("the database has no site");
    m_site = {rows->text(0)};
}

void Stranger::write(const QString& stream, const CommandId& command, const EncodedEvent& event)
{
    begin(command, 1);
    add(stream, command, event);
}

void Stranger::writeWithHeads(const QString& stream, const CommandId& command,
                              const EncodedEvent& event, const HeadKeeper& keeper)
{
    begin(command, 2);
    const Head written = add(stream, command, event);
    const Head head = headOf(*m_connection, m_site, headsStream()).value();
    Heads heads = lastHeads(*m_connection, m_site).value().value_or(Heads{});
    heads.heads = {written};
    add(headsStream(), command,
        {QString::fromLatin1(Heads::type), Heads::version,
         jsonText(sealHeads(keeper, m_site, head.seq + 1, head.hash, heads))});
}

void Stranger::begin(const CommandId& command, int entries)
{
    Writer writer(*m_connection);
    if (!writer.run("INSERT INTO command (site, command, at, actor, entries)"
                    " VALUES (?, ?, ?, ?, ?)",
                    {m_site.text, command.text, m_at.ms, m_by.value, entries}))
        qFatal("%s", qPrintable(writer.fault().text));
}

Head Stranger::add(const QString& stream, const CommandId& command, const EncodedEvent& event)
{
    const Head head = headOf(*m_connection, m_site, stream).value();
    Entry entry;
    entry.stream = stream;
    entry.seq = head.seq + 1;
    entry.at = m_at;
    entry.actor = m_by;
    entry.command = command;
    entry.type = event.type;
    entry.version = event.version;
    entry.body = event.body;
    entry.prevHash = head.hash;
    entry.hash = hashOf(m_site, entry);
    Writer writer(*m_connection);
    if (!insertEntry(writer, m_site, entry))
        qFatal("%s", qPrintable(writer.fault().text));
    return {stream, entry.seq, entry.hash};
}

} // namespace ramplight::test
