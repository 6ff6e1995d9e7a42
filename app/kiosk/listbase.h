// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QAbstractListModel>
#include <QtQmlIntegration>

#include <algorithm>
#include <memory>
#include <span>
#include <utility>
#include <vector>

namespace ramplight {

/// One role of a list: its name and how it is read from a row.
template <class Row>
struct Column
{
    const char* name;
    QVariant (*value)(const Row& row);
};

/// A cell that is a member of the row: {"carId", cell<&WallRow::carId>}.
template <auto Member, class Row>
QVariant cell(const Row& row)
{
    return QVariant::fromValue(row.*Member);
}

/// The rows of a list, with their type hidden from Qt's type system. Row has operator== and key(),
/// unique in the list.
class RowStore
{
public:
    RowStore() = default;
    RowStore(const RowStore&) = delete;
    RowStore& operator=(const RowStore&) = delete;
    virtual ~RowStore() = default;

    [[nodiscard]] virtual std::size_t count() const = 0;
    [[nodiscard]] virtual QVariant value(std::size_t row, std::size_t column) const = 0;
    [[nodiscard]] virtual std::vector<const char*> names() const = 0;
};

template <class Row>
class RowTable : public RowStore
{
public:
    explicit RowTable(std::span<const Column<Row>> columns)
        : m_columns(columns)
    {
    }

    [[nodiscard]] std::size_t count() const override { return m_rows.size(); }
    [[nodiscard]] QVariant value(std::size_t row, std::size_t column) const override
    {
        return row < m_rows.size() && column < m_columns.size()
                   ? m_columns[column].value(m_rows[row])
                   : QVariant();
    }
    [[nodiscard]] std::vector<const char*> names() const override
    {
        std::vector<const char*> names;
        for (const Column<Row>& column : m_columns)
            names.push_back(column.name);
        return names;
    }

    std::vector<Row>& rows() { return m_rows; }

private:
    std::span<const Column<Row>> m_columns;
    std::vector<Row> m_rows;
};

/// What every list for QML is: roles from Qt::UserRole + 1 on in the order of the columns, changed
/// row by row. GUI thread.
class ListBase : public QAbstractListModel
{
    Q_OBJECT
    QML_ANONYMOUS
    Q_PROPERTY(int count READ count NOTIFY countChanged FINAL)

public:
    [[nodiscard]] int count() const { return rowCount(); }
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;

signals:
    void countChanged();

protected:
    explicit ListBase(std::unique_ptr<RowStore> store, QObject* parent = nullptr);

    /// Row must be the type that the store was made with.
    template <class Row>
    [[nodiscard]] std::vector<Row>& stored() const
    {
        return static_cast<RowTable<Row>&>(*m_store).rows();
    }

    /// Takes the new rows: removes, moves, inserts and changes only what differs.
    template <class Row>
    void replace(std::vector<Row> rows)
    {
        const std::size_t before = m_store->count();
        if (before == 0 && !rows.empty()) {
            begin(std::move(rows));
        } else {
            removeMissing(rows);
            for (std::size_t at = 0; at < rows.size(); ++at)
                place(at, std::move(rows[at]));
        }
        if (before != m_store->count())
            emit countChanged();
    }

private:
    /// All at once: a view makes what is in sight, and the rest when there is time. Of rows that
    /// are inserted it makes those beyond its edges, too, and lays all of them out for each.
    template <class Row>
    void begin(std::vector<Row> rows)
    {
        beginResetModel();
        stored<Row>() = std::move(rows);
        endResetModel();
    }

    template <class Row>
    void removeMissing(const std::vector<Row>& wanted)
    {
        std::vector<Row>& rows = stored<Row>();
        for (std::size_t at = rows.size(); at-- > 0;) {
            if (std::any_of(wanted.begin(), wanted.end(),
                            [&](const Row& row) { return row.key() == rows[at].key(); }))
                continue;
            beginRemoveRows({}, static_cast<int>(at), static_cast<int>(at));
            rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(at));
            endRemoveRows();
        }
    }

    template <class Row>
    void place(std::size_t at, Row row)
    {
        std::vector<Row>& rows = stored<Row>();
        const auto target = rows.begin() + static_cast<std::ptrdiff_t>(at);
        const auto found = std::find_if(
            target, rows.end(), [&](const Row& candidate) { return candidate.key() == row.key(); });
        const int to = static_cast<int>(at);
        if (found == rows.end()) {
            beginInsertRows({}, to, to);
            rows.insert(target, std::move(row));
            endInsertRows();
            return;
        }
        if (found != target) {
            const int from = static_cast<int>(found - rows.begin());
            beginMoveRows({}, from, from, {}, to);
            std::rotate(target, found, found + 1);
            endMoveRows();
        }
        if (rows[at] == row)
            return;
        rows[at] = std::move(row);
        emit dataChanged(index(to), index(to));
    }

    std::unique_ptr<RowStore> m_store;
};

} // namespace ramplight
