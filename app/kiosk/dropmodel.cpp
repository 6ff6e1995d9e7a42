// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/dropmodel.h"

#include "kiosk/photourl.h"

namespace ramplight {

namespace {

constexpr std::array columns{
    Column<DropRow>{"path", cell<&DropRow::path>},
    Column<DropRow>{"name", cell<&DropRow::name>},
    Column<DropRow>{"url", cell<&DropRow::url>},
    Column<DropRow>{"whenWords", cell<&DropRow::whenWords>},
};

} // namespace

DropModel::DropModel(Desk& desk, SiteBook& book, Ticker& ticker, QObject* parent)
    : ListBase(std::make_unique<RowTable<DropRow>>(columns), parent)
    , m_desk(desk)
    , m_book(book)
    , m_ticker(ticker)
{
}

void DropModel::refresh()
{
    if (m_busy)
        return;
    m_busy = true;
    emit stateChanged();
    whenReady(m_desk.droppedFiles(), this,
              [this](const tl::expected<std::vector<DroppedFile>, EvidenceError>& files) {
                  m_busy = false;
                  m_fault = files ? QString() : words(files.error());
                  std::vector<DropRow> rows;
                  if (files)
                      for (const DroppedFile& file : *files)
                          rows.push_back({file.path, file.name, droppedUrl(file.path),
                                          m_book.times().shortly(file.modified, m_ticker.now())});
                  replace(std::move(rows));
                  emit stateChanged();
              });
}

} // namespace ramplight
