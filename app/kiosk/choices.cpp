// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/choices.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array choiceColumns{
    Column<ChoiceRow>{"choiceId", cell<&ChoiceRow::choiceId>},
    Column<ChoiceRow>{"title", cell<&ChoiceRow::title>},
    Column<ChoiceRow>{"group", cell<&ChoiceRow::group>},
    Column<ChoiceRow>{"chosen", cell<&ChoiceRow::chosen>},
};

} // namespace

Choices::Choices(bool several, QObject* parent)
    : ListBase(std::make_unique<RowTable<ChoiceRow>>(choiceColumns), parent)
    , m_several(several)
{
}

QStringList Choices::chosen() const
{
    QStringList ids;
    for (const ChoiceRow& row : stored<ChoiceRow>())
        if (row.chosen)
            ids.append(row.choiceId);
    return ids;
}

QString Choices::current() const
{
    return chosen().value(0);
}

QString Choices::currentTitle() const
{
    const int row = currentRow();
    return row < 0 ? QString() : stored<ChoiceRow>()[static_cast<std::size_t>(row)].title;
}

int Choices::currentRow() const
{
    const auto& rows = stored<ChoiceRow>();
    const auto found = std::ranges::find_if(rows, &ChoiceRow::chosen);
    return found == rows.end() ? -1 : static_cast<int>(found - rows.begin());
}

void Choices::choose(const QString& choiceId)
{
    QStringList ids = chosen();
    if (!m_several)
        ids = {choiceId};
    else if (!ids.removeOne(choiceId))
        ids.append(choiceId);
    setChosen(ids);
}

void Choices::chooseOnly()
{
    if (const auto& rows = stored<ChoiceRow>(); rows.size() == 1)
        setChosen({rows.front().choiceId});
}

void Choices::clear()
{
    setChosen({});
}

void Choices::setChosen(const QStringList& ids)
{
    std::vector<ChoiceRow> rows = stored<ChoiceRow>();
    for (ChoiceRow& row : rows)
        row.chosen = ids.contains(row.choiceId);
    if (rows == stored<ChoiceRow>())
        return;
    replace(std::move(rows));
    emit chosenChanged();
}

void Choices::offer(std::vector<ChoiceRow> rows)
{
    const QStringList before = chosen();
    for (ChoiceRow& row : rows)
        row.chosen = before.contains(row.choiceId);
    replace(std::move(rows));
    emit chosenChanged();
}

} // namespace ramplight
