// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "askedtally.h"

#include "../domain/randomsite.h"

namespace ramplight::test {

void AskedTally::hear(const QByteArray& lines)
{
    for (const QByteArray& line : lines.split('\n')) {
        const QList<QByteArray> words = line.split(' ');
        if (words.size() != 3 || words.front() != "asked")
            continue;
        Count& count = m_counts[QString::fromLatin1(words.at(1))];
        ++count.asked;
        count.done += words.at(2) == "done" ? 1 : 0;
        count.waited += words.at(2) == "waits" ? 1 : 0;
    }
}

void AskedTally::add(const AskedTally& other)
{
    for (auto one = other.m_counts.begin(); one != other.m_counts.end(); ++one) {
        Count& count = m_counts[one.key()];
        count.asked += one->asked;
        count.done += one->done;
        count.waited += one->waited;
    }
}

QStringList AskedTally::without(int Count::*what) const
{
    QStringList kinds = RandomSite::kinds();
    for (const char* name : commandNames())
        kinds.append(QString::fromLatin1(name));
    kinds.removeIf([&](const QString& kind) { return m_counts.value(kind).*what > 0; });
    return kinds;
}

QStringList AskedTally::neverAsked() const
{
    return without(&Count::asked);
}

QStringList AskedTally::neverDone() const
{
    return without(&Count::done);
}

int AskedTally::houseWaited() const
{
    int waited = 0;
    for (const QString& kind : RandomSite::kinds())
        waited += m_counts.value(kind).waited;
    return waited;
}

QString AskedTally::told() const
{
    QStringList lines;
    for (auto one = m_counts.begin(); one != m_counts.end(); ++one)
        lines.append(QStringLiteral("%1 %2 of %3, %4 told to wait")
                         .arg(one.key(), -18)
                         .arg(one->done, 7)
                         .arg(one->asked, 7)
                         .arg(one->waited));
    return lines.join(QLatin1Char('\n'));
}

} // namespace ramplight::test
