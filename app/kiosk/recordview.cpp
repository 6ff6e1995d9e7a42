// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/recordview.h"

#include "kiosk/photourl.h"

namespace ramplight {

void RecordPagesShelf::put(int edition, std::vector<QImage> pages)
{
    const std::scoped_lock lock(m_mutex);
    m_edition = edition;
    m_pages = std::move(pages);
}

QImage RecordPagesShelf::page(int edition, int index) const
{
    const std::scoped_lock lock(m_mutex);
    return edition == m_edition && index >= 0 && static_cast<std::size_t>(index) < m_pages.size()
               ? m_pages[static_cast<std::size_t>(index)]
               : QImage();
}

RecordView::RecordView(Desk& desk, std::shared_ptr<RecordPagesShelf> shelf, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_shelf(std::move(shelf))
{
}

void RecordView::make(const QString& carId, const QString& stockNumber)
{
    if (!m_ask.begin(QStringLiteral("make"),
                     [this, carId, stockNumber] { make(carId, stockNumber); }))
        return;
    m_stockNumber = stockNumber;
    m_pdf.clear();
    m_fingerprint.clear();
    m_urls.clear();
    m_savedPath.clear();
    m_printedWords.clear();
    const int edition = ++m_edition;
    emit changed();
    whenReady(m_desk.stickName(), this, [this](const QString& stick) {
        m_stick = stick;
        emit changed();
    });
    whenReady(m_desk.makeRecord(CarId{carId}), this,
              [this, edition](const tl::expected<RecordPages, QString>& made) {
                  if (!made) {
                      m_ask.fail(QStringLiteral("record"), made.error(), true);
                      return;
                  }
                  if (edition == m_edition) {
                      m_pdf = made->pdf;
                      m_fingerprint = made->fingerprint;
                      m_shelf->put(edition, made->pages);
                      for (std::size_t i = 0; i < made->pages.size(); ++i)
                          m_urls.append(pageUrl(edition, static_cast<int>(i)));
                      emit changed();
                  }
                  m_ask.succeed();
              });
}

void RecordView::keep(const std::function<QFuture<tl::expected<QString, QString>>()>& file)
{
    if (!made() || !m_ask.begin(QStringLiteral("save"), [this, file] { keep(file); }))
        return;
    whenReady(file(), this, [this](const tl::expected<QString, QString>& saved) {
        if (!saved) {
            m_ask.fail(QStringLiteral("record"), saved.error(), true);
            return;
        }
        m_savedPath = *saved;
        m_printedWords.clear();
        emit changed();
        m_ask.succeed();
    });
}

void RecordView::save()
{
    keep([this] { return m_desk.saveRecord(m_stockNumber, m_pdf); });
}

void RecordView::saveToStick()
{
    keep([this] {
        return m_desk.savePaper(paperFileName(QStringLiteral("record"), m_stockNumber), m_pdf,
                                KeepAt::Stick);
    });
}

void RecordView::print()
{
    if (!made() || !m_ask.begin(QStringLiteral("print"), [this] { print(); }))
        return;
    whenReady(m_desk.printPaper(tr("Handover record %1").arg(m_stockNumber), m_pdf), this,
              [this](const tl::expected<QString, QString>& printed) {
                  if (!printed) {
                      m_ask.fail(QStringLiteral("record"), printed.error(), true);
                      return;
                  }
                  m_printedWords = *printed;
                  m_savedPath.clear();
                  emit changed();
                  m_ask.succeed();
              });
}

void RecordView::close()
{
    ++m_edition;
    m_stockNumber.clear();
    m_pdf.clear();
    m_fingerprint.clear();
    m_urls.clear();
    m_savedPath.clear();
    m_printedWords.clear();
    m_shelf->put(m_edition, {});
    m_ask.dismiss();
    emit changed();
}

} // namespace ramplight
