// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "Numbers and PIN"

    Flow {
        anchors.fill: parent
        spacing: Theme.gap

        Sheet {
            width: Theme.mm(104)

            NumberPad {
                title: "Tread depth, outer third"
                text: "1.4"
                unit: "mm"
                decimals: 1
                hint: "at least 1.6 mm: law\nat least 3.0 mm: house"
            }
        }

        Sheet {
            width: Theme.mm(104)

            NumberPad {
                title: "Wheel fixing torque"
                unit: "Nm"
                signed: true
            }
        }

        Sheet {
            width: Theme.mm(86)

            PinPad {
                id: pin

                message: "Ines, your PIN"
                Component.onCompleted: {
                    strike("1")
                    strike("2")
                    strike("3")
                }
            }
        }

        Sheet {
            width: Theme.mm(86)

            PinPad {
                busy: true
            }
        }
    }
}
