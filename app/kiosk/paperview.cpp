// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/paperview.h"

#include "domain/wheeltag.h"
#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/photourl.h"

namespace ramplight {

PaperView::PaperView(Desk& desk, SiteBook& book, std::shared_ptr<RecordPagesShelf> shelf,
                     QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_book(book)
    , m_shelf(std::move(shelf))
    , m_corners(false)
{
    connect(&m_corners, &Choices::chosenChanged, this, [this] {
        const PlaceId wheel = wheelOfCorner(m_corners.current());
        if (!wheel.isEmpty() && !m_tagFor.isEmpty())
            want([this, car = CarId{m_tagFor}, wheel] { return m_desk.makeWheelTag(car, wheel); });
    });
}

QString PaperView::pageUrl() const
{
    return made() ? paperUrl(m_edition) : QString();
}

double PaperView::aspect() const
{
    return m_paper.page.isNull() ? 1 : double(m_paper.page.width()) / m_paper.page.height();
}

void PaperView::forget()
{
    ++m_edition;
    m_paper = {};
    m_outcome.clear();
    m_shelf->put(m_edition, {});
}

void PaperView::want(const Source& page)
{
    m_wanted = page;
    forget();
    emit changed();
    makeWanted();
}

void PaperView::makeWanted()
{
    // The last that was wanted is made, whatever was touched on the way there.
    if (!m_wanted || m_ask.busy())
        return;
    const Source page = std::exchange(m_wanted, {});
    if (!m_ask.begin(QStringLiteral("make"), [this, page] { want(page); }))
        return;
    const int edition = m_edition;
    whenReady(m_desk.stickName(), this, [this](const QString& stick) {
        m_stick = stick;
        emit changed();
    });
    whenReady(page(), this, [this, edition](const Made& paper) {
        if (paper && edition == m_edition) {
            m_paper = *paper;
            m_shelf->put(edition, {m_paper.page});
        }
        if (paper || edition != m_edition)
            m_ask.succeed();
        else
            m_ask.fail(QStringLiteral("paper"), paper.error(), true);
        emit changed();
        makeWanted();
    });
}

void PaperView::makeDoorSheet(const QString& carId)
{
    m_tagFor.clear();
    m_corners.clear();
    want([this, car = CarId{carId}] { return m_desk.makeDoorSheet(car); });
}

void PaperView::askForTag(const QString& carId)
{
    forget();
    m_wanted = {};
    m_ask.dismiss();
    m_tagFor = carId;
    std::vector<ChoiceRow> rows;
    for (const char* corner : {"FL", "FR", "RL", "RR", "SP"}) {
        const QString id = QString::fromLatin1(corner);
        rows.push_back(
            {id, sentence(placeWords(wheelOfCorner(id), m_book.site().rules)), {}, false});
    }
    m_corners.clear();
    m_corners.offer(std::move(rows));
    emit changed();
}

void PaperView::end(const QString& id, const QString& fault)
{
    emit changed();
    if (fault.isEmpty())
        m_ask.succeed();
    else
        m_ask.fail(id, fault, true);
    makeWanted();
}

void PaperView::print()
{
    if (!made() || !m_ask.begin(QStringLiteral("print"), [this] { print(); }))
        return;
    m_outcome.clear();
    emit changed();
    whenReady(m_desk.printPaper(m_paper.title, m_paper.pdf), this,
              [this](const tl::expected<QString, QString>& printed) {
                  if (printed)
                      m_outcome = *printed;
                  end(QStringLiteral("printer"), printed ? QString() : printed.error());
              });
}

void PaperView::keep(KeepAt where)
{
    if (!made() || !m_ask.begin(QStringLiteral("save"), [this, where] { keep(where); }))
        return;
    m_outcome.clear();
    emit changed();
    whenReady(m_desk.savePaper(m_paper.fileName, m_paper.pdf, where), this,
              [this](const tl::expected<QString, QString>& saved) {
                  if (saved)
                      m_outcome = tr("Saved: %1").arg(*saved);
                  end(QStringLiteral("paper"), saved ? QString() : saved.error());
              });
}

void PaperView::save()
{
    keep(KeepAt::Records);
}

void PaperView::saveToStick()
{
    keep(KeepAt::Stick);
}

void PaperView::close()
{
    forget();
    m_wanted = {};
    m_tagFor.clear();
    m_corners.clear();
    m_ask.dismiss();
    emit changed();
}

} // namespace ramplight
