// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "workhands.h"

#include <QQuickItem>

#include <algorithm>

namespace ramplight::test {

int WorkHands::readingAt() const
{
    const auto sheets = m_bench.ofType("ReadingSheet");
    return sheets.empty() ? -1 : sheets.back()->property("at").toInt();
}

bool WorkHands::goesOn(int from, Where where)
{
    return m_bench.until([&] { return readingAt() != from; }, QStringLiteral("next reading"),
                         where);
}

bool WorkHands::tap(const QString& words, Where where)
{
    ++m_touches.others;
    return m_bench.tap(words, where);
}

bool WorkHands::answer(const QString& words, Where where)
{
    const int at = readingAt();
    ++m_touches.choices;
    return m_bench.tap(words, where) && goesOn(at, where);
}

bool WorkHands::typeReading(const QString& digits, Where where)
{
    m_touches.digits += static_cast<int>(digits.size());
    return m_bench.type(digits, where) && tap(QStringLiteral("Done"), where);
}

bool WorkHands::enter(const QString& digits, Where where)
{
    const int at = readingAt();
    return typeReading(digits, where) && goesOn(at, where);
}

bool WorkHands::photo(const QString& fileName, Where where)
{
    const auto tile = [&]() -> QQuickItem* {
        const auto sheets = m_bench.ofType("PhotoSheet");
        for (QQuickItem* one : m_bench.ofType("PhotoTile"))
            if (!sheets.empty() && sheets.back()->isAncestorOf(one) &&
                one->property("spoken").toString() == fileName)
                return one;
        return nullptr;
    };
    m_touches.photos += 2;
    return m_bench.until([&] { return tile() != nullptr; }, fileName, where) &&
           m_bench.tap(tile(), where) && m_bench.tap(QStringLiteral("Use this photo"), where);
}

bool WorkHands::photo(const QString& fileName, std::size_t need, Where where)
{
    return photo(fileName, where) && m_bench.until(
                                         [&] {
                                             const auto& needs =
                                                 m_bench.shell().operation()->photoNeeds()->rows();
                                             return needs.size() > need && needs[need].present;
                                         },
                                         fileName, where);
}

std::vector<AttachedPhoto> photosOf(const CarState& car, OperationId work)
{
    std::vector<AttachedPhoto> photos;
    std::ranges::copy_if(car.photos, std::back_inserter(photos),
                         [work](const AttachedPhoto& photo) { return photo.operation == work; });
    return photos;
}

} // namespace ramplight::test
