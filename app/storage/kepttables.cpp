// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/kepttables.h"

#include <utility>

namespace ramplight {

KeptRows::KeptRows(const KeptTable& table, const SiteId& site, Connection& connection, int atOnce)
    : m_table(table)
    , m_site(site)
    , m_connection(connection)
    , m_atOnce(atOnce)
{
    ask();
}

void KeptRows::ask()
{
    QVariantList values{m_site.text};
    if (m_last.isValid())
        values.append(m_last);
    if (m_table.further != nullptr)
        values.append(m_atOnce);
    m_onPage = 0;
    m_rows.reset(); // gives the statement back
    auto rows = m_connection.run(m_last.isValid() ? m_table.further : m_table.read, values);
    if (rows)
        m_rows.emplace(std::move(*rows));
    else
        m_fault = rows.error();
}

bool KeptRows::next()
{
    const auto isAtEnd = [&] { return !m_rows || !m_rows->next(); };
    if (isAtEnd()) {
        if (m_table.further == nullptr || m_onPage < m_atOnce || fault())
            return false;
        ask();
        if (isAtEnd())
            return false;
    }
    if (++m_onPage == m_atOnce && m_table.further != nullptr)
        m_last = m_rows->value(m_table.key);
    return true;
}

std::optional<SqlFault> KeptRows::fault() const
{
    if (m_rows && m_rows->brokeOff())
        return SqlFault{SqlFault::Kind::Corrupt, {}};
    return m_fault;
}

} // namespace ramplight
