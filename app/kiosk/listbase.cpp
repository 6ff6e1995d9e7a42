// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/listbase.h"

namespace ramplight {

ListBase::ListBase(std::unique_ptr<RowStore> store, QObject* parent)
    : QAbstractListModel(parent)
    , m_store(std::move(store))
{
}

int ListBase::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_store->count());
}

QVariant ListBase::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || role <= Qt::UserRole)
        return {};
    return m_store->value(static_cast<std::size_t>(index.row()),
                          static_cast<std::size_t>(role - Qt::UserRole - 1));
}

QHash<int, QByteArray> ListBase::roleNames() const
{
    QHash<int, QByteArray> names;
    int role = Qt::UserRole;
    for (const char* name : m_store->names())
        names.insert(++role, name);
    return names;
}

} // namespace ramplight
